import { installMissing } from './install.mjs'
import { PlainFailure, say } from './say.mjs'

/** @typedef {(args: string[]) => Promise<number | void>} Command */

/**
 * A command that is written in TypeScript.
 *
 * @param {string} name
 * @returns {Command}
 */
function script(name) {
  return async args => (await import('./typescript.mjs')).runTypeScript(name, args)
}

/** @type {Record<string, { does: string, run: Command }>} */
const COMMANDS = {
  start: {
    does: 'build what is missing, serve the app and print its address',
    run: async args => (await import('./start.mjs')).start(args),
  },
  test: {
    does: 'run every check and every test',
    run: async args => (await import('./test.mjs')).test(args),
  },
  dev: {
    does: 'serve the app from its source, reloading on every edit',
    run: async args => (await import('./start.mjs')).dev(args),
  },
  build: {
    does: 'build the app into dist',
    run: async () => {
      await (await import('./build.mjs')).buildIfNeeded({ always: true })
    },
  },
  content: { does: 'check the clinical content', run: script('content') },
  assess: { does: 'assess a case file: assess -- FILE|- [--now ISO]', run: script('assess') },
  handover: {
    does: 'what a clinic receives: handover -- FILE|- --format text|page|json|fhir|link',
    run: script('handover'),
  },
  enclosure: {
    does: 'check an enclosure: enclosure -- FILE|- [--logger FILE.csv] [--concern ID]',
    run: script('enclosure'),
  },
  trend: {
    does: 'read weights: trend -- FILE.csv|- [--born DATE] [--event DATE:KIND]...',
    run: script('trend'),
  },
  condition: { does: 'read looks and measures: condition -- FILE|-', run: script('condition') },
  score: {
    does: 'score cases against what is right for them: score -- FILE|- ...',
    run: script('score'),
  },
  schema: {
    does: 'print a JSON Schema: schema -- case|assessment|condition|protocol|handover|clinic',
    run: script('schema'),
  },
  protocol: { does: 'print the whole protocol for a reader', run: script('protocol') },
  bench: { does: 'measure speed and size: bench [-- PREFIX]', run: script('bench') },
  proof: { does: 'run the long proofs and record them', run: script('proof') },
  'fuzz:links': {
    does: 'read a hundred thousand hostile links; fuzz:links -- --record keeps the result',
    run: script('fuzz-links'),
  },
  'verify:reference': {
    does: 'make the reference values of R and SciPy again and compare',
    run: script('verify-reference'),
  },
  lint: {
    does: 'check style and layers; lint -- --fix puts right what it can',
    run: async args => (await import('./checks.mjs')).lint(args),
  },
  types: {
    does: 'check the types',
    run: async args => (await import('./checks.mjs')).types(args),
  },
  size: {
    does: 'print the size of every built file, and hold the journeys against their budgets',
    run: async () => (await import('./size.mjs')).size(),
  },
}

function usage() {
  const lines = Object.entries(COMMANDS).map(([name, { does }]) => `  npm run ${name.padEnd(16)} ${does}`)
  return `Commands:\n${lines.join('\n')}`
}

/**
 * Installs what is missing, then runs one command.
 *
 * @param {string[]} argv the command's name, then its arguments
 */
export async function main([name = '', ...args]) {
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined
  if (!command) {
    say(name ? `There is no command "${name}".\n${usage()}` : usage())
    process.exitCode = 2
    return
  }
  try {
    await installMissing()
    const code = await command.run(args)
    if (typeof code === 'number') process.exitCode = code
  } catch (error) {
    if (!(error instanceof PlainFailure)) throw error
    say(error.message)
    process.exitCode = 1
  }
}
