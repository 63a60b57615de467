import type { CompiledProtocol } from '../../shared/compiled.ts'
import type { WeightsContent } from '../../shared/weights.ts'
import { faultLine } from '../protocol/fault.ts'
import { loadWeights } from '../protocol/weights.ts'
import { CONTENT_FOLDER, SPECIES_FOLDER } from './real-protocol.ts'

/** How this checkout reads weight records; a fault in the content ends the command with code 1. */
export function realWeights(protocol: CompiledProtocol): WeightsContent {
  const loaded = loadWeights(CONTENT_FOLDER, SPECIES_FOLDER, protocol)
  if (loaded.ok && loaded.weights) return loaded.weights
  const lines = loaded.ok
    ? [`${SPECIES_FOLDER}/weights.yaml: this file is missing`]
    : loaded.faults.map(faultLine)
  for (const line of lines) process.stderr.write(`${line}\n`)
  process.exit(1)
}
