import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The project's folder, wherever the command was called from. */
export const ROOT = fileURLToPath(new URL('../../../', import.meta.url))

/** @param {...string} parts a path inside the project */
export function inProject(...parts) {
  return join(ROOT, ...parts)
}

/** Reports, stamps and other things that can be thrown away; not in git. */
export const CACHE = inProject('.cache')
export const DIST = inProject('dist')
export const START_PAGE = inProject('src', 'app', 'index.html')
