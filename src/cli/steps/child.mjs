import { spawn } from 'node:child_process'
import { constants } from 'node:os'
import { ROOT } from './places.mjs'

/**
 * Runs one program in the project's folder and gives its exit code. What it prints goes straight through.
 *
 * @param {string} program
 * @param {string[]} args
 * @param {{ env?: Record<string, string>, stdout?: 'inherit' | 'stderr' }} [options]
 * @returns {Promise<number>}
 */
export function runProgram(program, args, { env = {}, stdout = 'inherit' } = {}) {
  return new Promise(resolve => {
    const child = spawn(program, args, {
      cwd: ROOT,
      env: { ...process.env, ...env },
      stdio: ['inherit', stdout === 'stderr' ? 2 : 'inherit', 'inherit'],
    })
    child.on('error', error => {
      process.stderr.write(`${program} could not be started: ${error.message}\n`)
      resolve(127)
    })
    child.on('close', (code, signal) => resolve(code ?? 128 + (signal ? constants.signals[signal] : 0)))
  })
}

/**
 * Runs a JavaScript file with this same Node.
 *
 * @param {string} file
 * @param {string[]} args
 * @param {{ env?: Record<string, string> }} [options]
 */
export function runNode(file, args, options) {
  return runProgram(process.execPath, [file, ...args], options)
}
