import { fileURLToPath } from 'node:url'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { faultLine } from '../protocol/fault.ts'
import { loadProtocol } from '../protocol/load.ts'

/** The content folder of this checkout. */
export const CONTENT_FOLDER = fileURLToPath(new URL('../../content', import.meta.url))

/** The species this build is for: the folder below content/. */
export const SPECIES_FOLDER = 'leopard-gecko'

/** The compiled protocol of this checkout; a fault in the content ends the command with code 1. */
export function realProtocol(): CompiledProtocol {
  const loaded = loadProtocol(CONTENT_FOLDER, SPECIES_FOLDER)
  if (loaded.ok) return loaded.compilation.protocol
  for (const fault of loaded.faults) process.stderr.write(`${faultLine(fault)}\n`)
  process.exit(1)
}
