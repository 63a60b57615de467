import { fileURLToPath } from 'node:url'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import type { CompiledEnclosure } from '../../shared/enclosure.ts'
import { faultLine } from '../protocol/fault.ts'
import { loadProtocol } from '../protocol/load.ts'

/** The content folder of this checkout. */
export const CONTENT_FOLDER = fileURLToPath(new URL('../../content', import.meta.url))

/** The species this build is for: the folder below content/. */
export const SPECIES_FOLDER = 'leopard-gecko'

/** The content of this checkout, compiled; a fault in it ends the command with code 1. */
function realContent() {
  const loaded = loadProtocol(CONTENT_FOLDER, SPECIES_FOLDER)
  if (loaded.ok) return loaded
  for (const fault of loaded.faults) process.stderr.write(`${faultLine(fault)}\n`)
  process.exit(1)
}

/** The compiled protocol of this checkout; a fault in the content ends the command with code 1. */
export function realProtocol(): CompiledProtocol {
  return realContent().compilation.protocol
}

/** The compiled check of enclosure and feeding, and the concerns it may be ranked by. */
export function realEnclosure(): { enclosure: CompiledEnclosure; concerns: readonly string[] } {
  const { enclosure, compilation } = realContent()
  if (!enclosure) throw new Error('the content of this checkout has no enclosure.yaml')
  return { enclosure, concerns: compilation.protocol.logic.concerns }
}
