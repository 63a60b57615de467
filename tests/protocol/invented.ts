import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { faultLine } from '../../src/protocol/fault.ts'
import { loadProtocol } from '../../src/protocol/load.ts'

/** The content folder of an invented animal, and the species folder in it. */
export const INVENTED = fileURLToPath(new URL('../fixtures/protocols/invented', import.meta.url))
export const DUNE_SKINK = 'dune-skink'

/** One change to a file of the invented content: the text `find`, which stands there once, becomes `put`. */
export type Change = readonly [file: string, find: string, put: string]

/** The faults, as lines, of a copy of the invented content with the changes made. */
export function faultsAfter(...changes: readonly Change[]): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'invented-'))
  try {
    cpSync(INVENTED, folder, { recursive: true })
    for (const [file, find, put] of changes) {
      const path = join(folder, file)
      const text = readFileSync(path, 'utf8')
      const parts = text.split(find)
      if (parts.length !== 2) throw new Error(`${file}: "${find}" stands ${parts.length - 1} times, not once`)
      writeFileSync(path, parts.join(put))
    }
    const loaded = loadProtocol(folder, DUNE_SKINK)
    return loaded.ok ? [] : loaded.faults.map(faultLine)
  } finally {
    rmSync(folder, { recursive: true })
  }
}
