import type { CompiledEnclosure } from '../../shared/enclosure.ts'
import { checkContent } from './checks/index.ts'
import { type Compilation, compile } from './compile.ts'
import { checkEnclosure } from './enclosure/check.ts'
import { compileEnclosure } from './enclosure/compile.ts'
import type { ContentFault } from './fault.ts'
import { readSource } from './source.ts'

/** What came of reading a content folder: the compiled protocol, or every fault found. */
export type Loaded =
  | {
      readonly ok: true
      readonly compilation: Compilation
      /** The check of enclosure and feeding, where the species has one. */
      readonly enclosure: CompiledEnclosure | undefined
      readonly counts: Readonly<Record<string, number>>
    }
  | { readonly ok: false; readonly faults: readonly ContentFault[] }

/** Reads, checks and compiles the content of one species. `folder` is content/, `species` the folder below it. */
export function loadProtocol(folder: string, species: string): Loaded {
  const faults: ContentFault[] = []
  const source = readSource(folder, species, faults)
  if (!source || faults.length > 0) return { ok: false, faults }
  const compilation = compile(source, faults)
  const counts = faults.length > 0 ? {} : checkContent(source, compilation, faults)
  const enclosure = compileEnclosure(source, faults)
  if (enclosure) checkEnclosure(source, enclosure, faults)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, compilation, enclosure, counts }
}
