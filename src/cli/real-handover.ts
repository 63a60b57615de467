import type { CompiledProtocol } from '../../shared/compiled.ts'
import type { HandoverContent } from '../../shared/handover-content.ts'
import { faultLine } from '../protocol/fault.ts'
import { loadHandover } from '../protocol/handover.ts'
import { CONTENT_FOLDER, SPECIES_FOLDER } from './real-protocol.ts'

/** What a clinic receives, by the content of this checkout; a fault in it ends the command with code 1. */
export function realHandover(protocol: CompiledProtocol): HandoverContent {
  const loaded = loadHandover(CONTENT_FOLDER, SPECIES_FOLDER, protocol)
  if (loaded.ok && loaded.handover) return loaded.handover
  const lines = loaded.ok
    ? [`${SPECIES_FOLDER}/handover.yaml: this file is missing`]
    : loaded.faults.map(faultLine)
  for (const line of lines) process.stderr.write(`${line}\n`)
  process.exit(1)
}
