import type { CompiledProtocol } from '../../shared/compiled.ts'
import { type Result, success } from '../../shared/result.ts'
import type { WeightsContent } from '../../shared/weights.ts'
import { LOSING } from '../measure/groupSignals.ts'
import { readShelf } from './read-shelf.ts'
import { shelfOf, shelfReport } from './shelf-report.ts'
import { trendWords } from './trend-words.ts'

/** What `npm run trend` prints for its words, or every fault. `textOf` gives the text of a file, or says why not. */
export function trendOf(
  words: readonly string[],
  textOf: (file: string) => Result<string>,
  compiled: CompiledProtocol,
  weights: WeightsContent,
): Result<ReturnType<typeof shelfReport>> {
  const kindsSeen = new Set(weights.shelf.signals.flatMap(({ anyOf }) => anyOf))
  kindsSeen.delete(LOSING)
  const wanted = trendWords(words, [...kindsSeen])
  if (!wanted.ok) return wanted
  const text = textOf(wanted.value.file)
  if (!text.ok) return text
  const animals = readShelf(text.value, wanted.value)
  if (!animals.ok) return animals
  const { now } = wanted.value
  return success(shelfReport(shelfOf(animals.value, compiled, weights, now), compiled, weights, now))
}
