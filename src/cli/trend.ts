import { failure, type Result, success } from '../../shared/result.ts'
import { LOSING } from '../measure/groupSignals.ts'
import { givenText } from './given-text.ts'
import { readShelf } from './read-shelf.ts'
import { realProtocol } from './real-protocol.ts'
import { realWeights } from './real-weights.ts'
import { sayFaults } from './say-faults.ts'
import { shelfOf, shelfReport } from './shelf-report.ts'
import { trendWords } from './trend-words.ts'

/**
 * `npm run -s trend -- FILE.csv|- [--born DATE] [--event DATE:KIND]... [--scale-step G] [--now ISO] [--zone Z]`: prints
 * what a file of weights says, one result for each animal that a column names, in the order in which they need a
 * keeper. Exit 0 whatever the result, 2 on bad input.
 */
function run(words: readonly string[]): Result<unknown> {
  const weights = realWeights()
  const kindsSeen = [...new Set(weights.shelf.signals.flatMap(({ anyOf }) => anyOf))].filter(
    kind => kind !== LOSING,
  )
  const wanted = trendWords(words, kindsSeen)
  if (!wanted.ok) return wanted
  const text = givenText(wanted.value.file)
  if (!text.ok) return text
  const animals = readShelf(text.value, wanted.value)
  if (!animals.ok) return failure(animals.faults)
  const compiled = realProtocol()
  const { now } = wanted.value
  return success(shelfReport(shelfOf(animals.value, compiled, weights, now), compiled, weights, now))
}

const outcome = run(process.argv.slice(2))
if (outcome.ok) process.stdout.write(`${JSON.stringify(outcome.value, null, 2)}\n`)
else {
  sayFaults(outcome.faults)
  process.exitCode = 2
}
