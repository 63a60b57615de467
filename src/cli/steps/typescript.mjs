import { existsSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import { inProject } from './places.mjs'
import { PlainFailure } from './say.mjs'

/**
 * Runs src/cli/NAME.ts as `node --import tsx src/cli/NAME.ts` would, but in this process: a second Node
 * would cost a third of the start-up time. The script sees its own arguments from `process.argv[2]` on.
 *
 * @param {string} name
 * @param {string[]} args
 */
export async function runTypeScript(name, args) {
  const file = inProject('src', 'cli', `${name}.ts`)
  if (!existsSync(file)) throw new PlainFailure(`There is no src/cli/${name}.ts in this copy of the project.`)
  // @ts-expect-error: tsx ships no types for its entry; importing it is all that is needed.
  await import('tsx')
  process.argv = [process.execPath, file, ...args]
  await import(pathToFileURL(file).href)
}
