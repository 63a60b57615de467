import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'

/** The species folders of a content folder: those that hold a species.yaml, sorted by name. */
export function speciesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter(entry => entry.isDirectory() && existsSync(join(folder, entry.name, 'species.yaml')))
    .map(({ name }) => name)
    .sort()
}
