import { runNode } from './child.mjs'
import { CACHE, inProject } from './places.mjs'

/**
 * `npm run lint`: style and layer rules; with --fix it writes what can be put right by itself.
 *
 * @param {string[]} args
 * @returns {Promise<number>} exit code
 */
export function lint(args) {
  const biome = inProject('node_modules', '@biomejs', 'biome', 'bin', 'biome')
  const [first, ...rest] = args
  return first === '--fix'
    ? runNode(biome, ['check', '--write', ...rest])
    : runNode(biome, ['ci', '--error-on-warnings', ...args])
}

/**
 * `npm run types`: the type checker over everything.
 *
 * @param {string[]} args
 * @returns {Promise<number>} exit code
 */
export function types(args) {
  const tsc = inProject('node_modules', 'typescript', 'bin', 'tsc')
  const reuse = ['--incremental', '--tsBuildInfoFile', `${CACHE}/types.tsbuildinfo`]
  return runNode(tsc, ['-p', inProject('tsconfig.json'), ...reuse, ...args])
}
