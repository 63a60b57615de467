import { CANNOT_MEASURE, CANNOT_TELL } from '../../shared/answers.ts'
import { type Answer, type AnswerAsWritten, type CaseFile, caseFileSchema } from '../../shared/case-file.ts'
import type { Logic, Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { type Fault, failure, type Result, shown, success } from '../../shared/result.ts'
import { hoursLater, isZone } from './calendar.ts'

const KIND_ACCEPTS = {
  choice: 'one option',
  several: 'a list of options',
  since: 'a moment: {"began": instant} or {"hoursAgo": number}',
  amount: 'a number',
  weights: `"${CANNOT_MEASURE}" (weights themselves go under weighIns)`,
} as const

/** What a question accepts, in words that name the options. */
export function acceptedFor(question: Question): string {
  return [
    question.kind === 'choice' || question.kind === 'several' || question.options.length === 0
      ? `${KIND_ACCEPTS[question.kind]}${question.options.length > 0 ? ` of ${question.options.join(', ')}` : ''}`
      : `${KIND_ACCEPTS[question.kind]}, or ${question.options.join(', ')}`,
    ...(question.range ? [`from ${question.range.from} to ${question.range.to} ${question.range.unit}`] : []),
    ...(question.cannotTell ? [CANNOT_TELL] : []),
    ...(question.cannotMeasure ? [CANNOT_MEASURE] : []),
  ].join('; ')
}

/** One answer in its full form, or undefined where the question does not accept it. */
export function readAnswer(question: Question, written: AnswerAsWritten, now: Moment): Answer | undefined {
  const given =
    typeof written === 'object' && !Array.isArray(written) ? (written.given ?? now.instant) : now.instant
  const known = (option: string) => question.options.includes(option)
  if (written === CANNOT_TELL || (typeof written === 'object' && 'cannotTell' in written))
    return question.cannotTell ? { kind: 'cannot-tell', given } : undefined
  if (written === CANNOT_MEASURE || (typeof written === 'object' && 'cannotMeasure' in written))
    return question.cannotMeasure ? { kind: 'cannot-measure', given } : undefined
  const choice =
    typeof written === 'string'
      ? written
      : typeof written === 'object' && 'choice' in written
        ? written.choice
        : undefined
  if (choice !== undefined) {
    if (!known(choice)) return undefined
    if (question.kind === 'several') return { kind: 'several', chosen: [choice], rest: 'no', given }
    return question.kind === 'choice' || question.kind === 'since'
      ? { kind: 'choice', choice, given }
      : undefined
  }
  const chosen = Array.isArray(written)
    ? written
    : typeof written === 'object' && 'chosen' in written
      ? written.chosen
      : undefined
  if (chosen) {
    const rest = typeof written === 'object' && 'rest' in written ? written.rest : 'no'
    if (question.kind !== 'several' || !chosen.every(known) || (rest === CANNOT_TELL && !question.cannotTell))
      return undefined
    return { kind: 'several', chosen, rest, given }
  }
  const amount =
    typeof written === 'number'
      ? written
      : typeof written === 'object' && 'amount' in written
        ? written.amount
        : undefined
  if (amount !== undefined) {
    const { range } = question
    const fits =
      question.kind === 'amount' &&
      Number.isFinite(amount) &&
      (!range || (amount >= range.from && amount <= range.to))
    return fits ? { kind: 'amount', amount, given } : undefined
  }
  if (question.kind !== 'since' || typeof written !== 'object') return undefined
  if ('began' in written)
    return { kind: 'since', began: written.began, uncertaintyHours: written.uncertaintyHours, given }
  if ('hoursAgo' in written) {
    const began = new Date(hoursLater(Date.parse(given), -written.hoursAgo)).toISOString()
    return { kind: 'since', began, uncertaintyHours: written.uncertaintyHours, given }
  }
  return undefined
}

function later(instant: string, now: Moment): boolean {
  return Date.parse(instant) > Date.parse(now.instant)
}

/** Reads anything as a case file of this protocol: parsed, short forms made full, every fault named. */
export function readCaseFile(logic: Logic, value: unknown, now: Moment): Result<CaseFile> {
  if (!isZone(now.zone))
    return failure([
      { field: 'now.zone', value: now.zone, accepted: 'an IANA time zone such as Europe/London' },
    ])
  const parsed = caseFileSchema.safeParse(value)
  if (!parsed.success) return failure(faultsOf(parsed.error, value, 'case file'))
  const written = parsed.data
  const faults: Fault[] = []
  const answers: Record<string, Answer> = {}
  for (const [id, answer] of Object.entries(written.answers ?? {})) {
    const question = logic.questions.find(one => one.id === id)
    const read = question ? readAnswer(question, answer, now) : undefined
    if (!question)
      faults.push({ field: `answers.${id}`, value: id, accepted: 'the id of a question of this protocol' })
    else if (!read)
      faults.push({ field: `answers.${id}`, value: shown(answer), accepted: acceptedFor(question) })
    else if (read.kind === 'since' && later(read.began, now))
      faults.push({
        field: `answers.${id}.began`,
        value: read.began,
        accepted: `a moment not after ${now.instant}`,
      })
    else answers[id] = read
  }
  const species = written.animal?.species
  if (species !== undefined && species !== logic.species)
    faults.push({ field: 'animal.species', value: species, accepted: logic.species })
  const hatchedOn = written.animal?.hatchedOn
  if (hatchedOn !== undefined && later(`${hatchedOn}T00:00:00Z`, now))
    faults.push({
      field: 'animal.hatchedOn',
      value: hatchedOn,
      accepted: `a day not after ${now.instant.slice(0, 10)}`,
    })
  for (const list of ['weighIns', 'events', 'readings'] as const) {
    for (const [index, { at }] of (written[list] ?? []).entries()) {
      if (later(at, now))
        faults.push({
          field: `${list}.${index}.at`,
          value: at,
          accepted: `an instant not after ${now.instant}`,
        })
    }
  }
  if (faults.length > 0) return failure(faults)
  return success({
    animal: written.animal ?? {},
    answers,
    weighIns: written.weighIns ?? [],
    events: written.events ?? [],
    readings: written.readings ?? [],
  })
}
