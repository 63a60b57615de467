import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { type WeightsContent, weightsFileSchema } from '../../shared/weights.ts'
import { parsed, readDocument } from './documents.ts'
import type { ContentFault } from './fault.ts'

/** What came of reading how a weight record is read: the content, or every fault found. */
export type LoadedWeights =
  | { readonly ok: true; readonly weights: WeightsContent | undefined }
  | { readonly ok: false; readonly faults: readonly ContentFault[] }

/**
 * Reads weights.yaml of one species and checks that the evidence rows and sources it names are `known`, those of its
 * protocol. `folder` is content/. A species without the file has none.
 */
export function loadWeights(
  folder: string,
  species: string,
  known: Pick<CompiledProtocol, 'evidence' | 'sources'>,
): LoadedWeights {
  const file = `${species}/weights.yaml`
  if (!existsSync(join(folder, file))) return { ok: true, weights: undefined }
  const faults: ContentFault[] = []
  const document = readDocument(folder, file, faults)
  const weights = parsed(weightsFileSchema, document, faults)
  if (weights !== undefined) {
    const named: readonly (readonly [path: (string | number)[], ids: readonly string[]])[] = [
      [['evidence'], weights.evidence],
      [['growth', 'evidence'], weights.growth.evidence],
      [['massIndex', 'evidence'], weights.massIndex.evidence],
      [['condition', 'evidence'], weights.condition.evidence],
      ...weights.shelf.signals.map(({ evidence }, index): [(string | number)[], string[]] => [
        ['shelf', 'signals', index, 'evidence'],
        evidence,
      ]),
    ]
    for (const [path, ids] of named)
      for (const id of ids)
        if (!Object.hasOwn(known.evidence, id))
          faults.push(
            document.faultAt(path, `${path.join('.')}: given: ${id}; accepted: a row of evidence.yaml`),
          )
    for (const list of ['starts', 'ratesGramsPerDay'] as const)
      for (const [index, { source }] of weights.growth[list].entries())
        if (!Object.hasOwn(known.sources, source)) {
          const path = ['growth', list, index, 'source']
          faults.push(
            document.faultAt(path, `${path.join('.')}: given: ${source}; accepted: a source of sources.yaml`),
          )
        }
  }
  return faults.length > 0 || weights === undefined ? { ok: false, faults } : { ok: true, weights }
}
