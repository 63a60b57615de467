import { faultsOf } from '../../shared/parse-faults.ts'
import { type Fault, failure, type Result, success } from '../../shared/result.ts'
import { type ScoredCase, scoredCaseSchema } from '../../shared/scored-case.ts'
import { atLeastAsUrgent } from '../../shared/urgency.ts'
import { assess } from '../triage/assess.ts'
import { type Protocol, prepare } from '../triage/prepare.ts'
import { readCaseFile } from '../triage/read-case-file.ts'
import { givenJson, givenText } from './given-text.ts'
import { realProtocol } from './real-protocol.ts'
import { sayFaults } from './say-faults.ts'
import { type Outcome, type Score, scoreOf } from './score/score-cases.ts'

/**
 * `npm run -s score -- FILE|- ...`: how the outcomes of cases stand to the urgencies that are right for them, as JSON.
 * A file holds one case or a list; several files count together. Exit 0 whatever the score, 2 on bad input.
 */

/** The cases of one file, each with the name of its place for faults. */
function casesOf(file: string): Result<{ place: string; one: ScoredCase }[]> {
  const text = givenText(file)
  if (!text.ok) return text
  const json = givenJson(text.value, file)
  if (!json.ok) return json
  const { value } = json
  const isList = Array.isArray(value)
  const list: readonly unknown[] = isList ? value : [value]
  const faults: Fault[] = []
  const cases = list.flatMap((given, at) => {
    const place = isList ? `${file}: ${at}` : file
    const parsed = scoredCaseSchema.safeParse(given)
    if (parsed.success) return [{ place, one: parsed.data }]
    for (const fault of faultsOf(parsed.error, given, 'case'))
      faults.push({ ...fault, field: `${place}: ${fault.field}` })
    return []
  })
  return faults.length > 0 ? failure(faults) : success(cases)
}

function outcomeOf(
  protocol: Protocol,
  place: string,
  { id, allowed, now, caseFile }: ScoredCase,
): Result<Outcome> {
  if (!atLeastAsUrgent(allowed.max, allowed.min))
    return failure([
      {
        field: `${place}: allowed.max`,
        value: allowed.max,
        accepted: `${allowed.min} or more urgent, as allowed.min`,
      },
    ])
  const read = readCaseFile(protocol.logic, caseFile, now)
  if (!read.ok)
    return failure(read.faults.map(fault => ({ ...fault, field: `${place}: caseFile.${fault.field}` })))
  const { urgency } = assess(protocol, read.value, now)
  const said = read.value.answers[protocol.logic.questions[protocol.logic.concernQuestion]?.id ?? '']
  const concerns = said?.kind === 'several' ? said.chosen : []
  return success({ id, allowed, concerns, ...(urgency === undefined ? {} : { got: urgency }) })
}

function run(files: readonly string[]): Result<Score> {
  const odd = files.find(file => file !== '-' && file.startsWith('-'))
  if (files.length === 0 || odd !== undefined)
    return failure([
      { field: 'command', value: odd ?? 'nothing', accepted: 'FILE or - for standard input, once or more' },
    ])
  const protocol = prepare(realProtocol().logic)
  const faults: Fault[] = []
  const outcomes: Outcome[] = []
  const seen = new Set<string>()
  for (const file of files) {
    const cases = casesOf(file)
    if (!cases.ok) {
      faults.push(...cases.faults)
      continue
    }
    for (const { place, one } of cases.value) {
      if (seen.has(one.id)) faults.push({ field: `${place}: id`, value: one.id, accepted: 'an id used once' })
      seen.add(one.id)
      const outcome = outcomeOf(protocol, place, one)
      if (outcome.ok) outcomes.push(outcome.value)
      else faults.push(...outcome.faults)
    }
  }
  if (faults.length > 0) return failure(faults)
  if (outcomes.length === 0)
    return failure([{ field: 'cases', value: 'none', accepted: 'at least one case' }])
  return success(scoreOf(outcomes))
}

const PLACES = 10_000
/** Shares are printed to four places. */
const rounded = (_key: string, value: unknown) =>
  typeof value === 'number' ? Math.round(value * PLACES) / PLACES : value

const score = run(process.argv.slice(2))
if (score.ok) process.stdout.write(`${JSON.stringify(score.value, rounded, 2)}\n`)
else {
  sayFaults(score.faults)
  process.exitCode = 2
}
