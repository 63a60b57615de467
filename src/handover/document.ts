import type { Assessment } from '../../shared/assessment.ts'
import type { CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { Frame, Logic, Question } from '../../shared/compiled.ts'
import {
  HANDOVER_FORMAT,
  HANDOVER_VERSION,
  type Handover,
  type HandoverFact,
  type HandoverPart,
} from '../../shared/handover.ts'
import type { AnswersAre, HandoverContent, HistoryQuestion } from '../../shared/handover-content.ts'
import type { AnimalRecord, KeptEvent, KeptReading } from '../../shared/record.ts'
import { answerWords } from './answer-words.ts'
import {
  type Answered,
  answerFact,
  byDate,
  eventFact,
  moment,
  onOneLine,
  readingFact,
  toTheMinute,
} from './document-facts.ts'
import type { WordBook } from './word-book.ts'

/** All that a history is made from. */
export interface HandoverSource {
  readonly logic: Logic
  readonly frame: Frame
  readonly book: Pick<WordBook, 'question' | 'rule' | 'sign'>
  readonly content: HandoverContent
  readonly caseFile: CaseFile
  readonly assessment: Assessment
  /** What the keeper's record has of this animal. */
  readonly record?: Pick<AnimalRecord, 'animal' | 'weighIns' | 'events' | 'readings'> | undefined
  /** Answers to the questions of history forms, by id, in the owner's words. */
  readonly history?: Readonly<Record<string, string>> | undefined
  readonly leaveOut?: readonly HandoverPart[] | undefined
  readonly note?: string | undefined
}

/** The newest of each kind are enough for a reader with a minute. */
const LATEST_EVENTS = 3

const newestFirst = (one: { readonly at: string }, other: { readonly at: string }) =>
  Date.parse(other.at) - Date.parse(one.at)

/** The questions of history forms that are still open: asked of this case and not answered. */
export function openHistory({
  content,
  caseFile,
  history = {},
}: Pick<HandoverSource, 'content' | 'caseFile' | 'history'>): HistoryQuestion[] {
  return content.sections.flatMap(({ asks }) =>
    asks.filter(
      ({ id, ifAnswered }) =>
        !history[id]?.trim() && (!ifAnswered || ifAnswered.some(question => caseFile.answers[question])),
    ),
  )
}

/** Every weigh-in of case and record once, oldest first. */
function weighInsOf({ caseFile, record }: HandoverSource): WeighIn[] {
  const byTime = new Map<number, WeighIn>()
  for (const { at, massGrams, scaleStepGrams } of [...caseFile.weighIns, ...(record?.weighIns ?? [])])
    byTime.set(Date.parse(at), {
      at: toTheMinute(at),
      massGrams: Math.round(massGrams * 100) / 100,
      ...(scaleStepGrams === undefined ? {} : { scaleStepGrams }),
    })
  return [...byTime.entries()].sort(([one], [other]) => one - other).map(([, weighIn]) => weighIn)
}

function weightSummary({ assessment }: HandoverSource, day: (instant: string) => string): string | undefined {
  const loss = assessment.weightLoss
  if (!loss) return undefined
  const explained =
    loss.explainedGrams > 0 ? `; ${loss.explainedGrams} g explained by events and left out` : ''
  return `${loss.newestGrams} g on ${day(loss.newestAt)}; ${loss.lossPercent} % under ${loss.referenceGrams} g of ${day(loss.referenceAt)}, over ${loss.overDays} days${explained}`
}

function questionsOf(logic: Logic, ids: readonly string[]): Question[] {
  return ids.flatMap(id => logic.questions.find(question => question.id === id) ?? [])
}

function signFacts(
  answered: Answered,
  { logic }: HandoverSource,
  ids: readonly string[],
  value: string,
): HandoverFact[] {
  const { book, caseFile, now } = answered
  return ids.map((id): HandoverFact => {
    const times = logic.questions.flatMap(({ id: question, signs }) =>
      signs.includes(id) ? (caseFile.answers[question]?.given ?? []) : [],
    )
    const newest = times.toSorted((one, other) => Date.parse(other) - Date.parse(one))[0]
    return {
      label: onOneLine(book.sign(id) ?? id, 300),
      value,
      tag: 'seen',
      ...(newest === undefined ? {} : moment(newest, now)),
    }
  })
}

function readAloud(source: HandoverSource, answered: Answered, newest: WeighIn | undefined): string {
  const { logic, frame, book, content, caseFile, assessment, record, leaveOut = [] } = source
  const days = byDate(answered.now)
  const said = (id: string) =>
    questionsOf(logic, [id]).flatMap(question => {
      const answer = caseFile.answers[question.id]
      return answer ? answerWords(book, question, { answer }, days) : []
    })
  const { hatchedOn, colourLine } = { ...record?.animal, ...caseFile.animal }
  const sex = record?.animal.sex
  const animal = [
    frame.name,
    colourLine ? `line ${colourLine}` : undefined,
    hatchedOn ? `hatched ${hatchedOn}` : undefined,
    ...content.readAloud.flatMap(said),
    sex ? `${sex} by the record (${record?.animal.sexCertainty ?? 'not said how sure'})` : undefined,
    newest
      ? `${newest.massGrams} g on ${days.day(newest.at)}`
      : leaveOut.includes('weights')
        ? undefined
        : 'not weighed',
  ].filter(part => part !== undefined)
  const concerns = assessment.concerns.map(id => frame.concerns.find(one => one.id === id)?.name ?? id)
  const course = questionsOf(logic, content.course).flatMap(question => {
    const fact = answerFact(answered, question)
    return fact ? `${fact.label} ${fact.value}.` : []
  })
  return onOneLine(
    `${animal.join(', ')}. ${concerns.join(', ') || 'No concern told yet'}. ${course.join(' ')}`,
  )
}

/** Whether each of the questions was answered with one of its options. */
function isAnswered(caseFile: CaseFile, answers: AnswersAre): boolean {
  return Object.entries(answers).every(([question, options]) => {
    const answer = caseFile.answers[question]
    if (answer?.kind === 'several') return options.some(option => answer.chosen.includes(option))
    return answer?.kind === 'choice' && options.includes(answer.choice)
  })
}

function keepApart({ content, caseFile, assessment }: HandoverSource): string[] {
  const holding = new Set(assessment.reasons.map(({ rule }) => rule))
  const reasons = content.keepApart.flatMap(({ reason, rules, answers }) =>
    rules.some(rule => holding.has(rule)) ||
    (answers.length > 0 && answers.every(one => isAnswered(caseFile, one)))
      ? [reason]
      : [],
  )
  return [...new Set(reasons)]
}

function sectionsOf(source: HandoverSource, answered: Answered): Handover['sections'] {
  const { logic, content, caseFile, record, history = {}, leaveOut = [] } = source
  const { now } = answered
  const past: readonly KeptEvent[] = leaveOut.includes('past') ? [] : (record?.events ?? caseFile.events)
  const readings: readonly KeptReading[] = leaveOut.includes('readings')
    ? []
    : (record?.readings ?? caseFile.readings)
  const placed = new Set(content.sections.flatMap(({ questions }) => questions))
  const rest = logic.questions.filter(({ id, phase }) => phase === 'concerns' && !placed.has(id))
  return content.sections.flatMap(section => {
    const { id, title, questions, events, asks } = section
    const facts = [
      ...[...questionsOf(logic, questions), ...(section.rest ? rest : [])].flatMap(
        question => answerFact(answered, question) ?? [],
      ),
      ...events.flatMap(kind =>
        past
          .filter(event => event.kind === kind)
          .sort(newestFirst)
          .slice(0, LATEST_EVENTS)
          .map(event => eventFact(event, now)),
      ),
      ...(section.readings ? newestReadings(readings).map(reading => readingFact(reading, now)) : []),
      ...asks.flatMap(({ id: asked, ask }): HandoverFact[] => {
        const value = onOneLine(history[asked] ?? '')
        return value === '' ? [] : [{ label: ask, value, tag: 'told', ...moment(now.instant, now) }]
      }),
    ]
    return facts.length > 0 ? [{ id, title, facts }] : []
  })
}

/** The newest reading of each thing that was read at each place. */
function newestReadings(readings: readonly KeptReading[]): KeptReading[] {
  const newest = new Map<string, KeptReading>()
  for (const reading of readings.toSorted(newestFirst)) {
    const key = `${reading.what} ${reading.measuredWhere ?? ''}`
    if (!newest.has(key)) newest.set(key, reading)
  }
  return [...newest.values()]
}

/**
 * The history that a clinic receives, of what was answered, kept and assessed already: facts with how they are known
 * and when, in the order that content gives, the guide's own urgency last. Same input, same value.
 */
export function handoverDocument(source: HandoverSource): Handover {
  const { logic, frame, book, content, caseFile, assessment, record, leaveOut = [] } = source
  const { now } = assessment
  const answered: Answered = { book, caseFile, content, now }
  const has = (part: HandoverPart) => !leaveOut.includes(part)
  const weighIns = has('weights') ? weighInsOf(source) : []
  const summary = has('weights') ? weightSummary(source, byDate(now).day) : undefined
  const { name, hatchedOn, colourLine } = { ...record?.animal, ...caseFile.animal }
  const { present, unsure, absent, notAsked } = assessment.dangerSigns
  const { urgency, seenBy } = assessment
  return {
    format: HANDOVER_FORMAT,
    version: HANDOVER_VERSION,
    ...(source.note === undefined ? {} : { note: onOneLine(source.note) }),
    made: { ...now, instant: toTheMinute(now.instant) },
    animal: {
      ...(has('name') && name !== undefined ? { name: onOneLine(name, 60) } : {}),
      species: frame.name,
      latin: frame.latin,
      ...(colourLine === undefined ? {} : { colourLine: onOneLine(colourLine, 60) }),
      ...(hatchedOn === undefined ? {} : { hatchedOn }),
    },
    readAloud: readAloud(source, answered, weighIns.at(-1)),
    underVet: content.underVet.flatMap(answers =>
      isAnswered(caseFile, answers)
        ? questionsOf(logic, Object.keys(answers)).flatMap(one => answerFact(answered, one) ?? [])
        : [],
    ),
    dangerSigns: {
      present: signFacts(answered, source, present, 'there'),
      unsure: signFacts(answered, source, unsure, 'looked, could not tell'),
      absent: signFacts(answered, source, absent, 'asked and not there'),
      notAsked: notAsked.map(id => onOneLine(book.sign(id) ?? id)),
    },
    weights: { ...(summary === undefined ? {} : { summary }), weighIns },
    sections: sectionsOf(source, answered),
    keepApart: keepApart(source),
    answers: has('answers') ? logic.questions.flatMap(question => answerFact(answered, question) ?? []) : [],
    guide: {
      result: onOneLine(
        urgency
          ? `${frame.urgencyNames[urgency]}. ${frame.firstLine[urgency]}`
          : 'Not settled yet: more answers are needed.',
      ),
      ...(seenBy ? { seenBy: `${seenBy.day}, ${seenBy.partOfDay}; sooner is better` } : {}),
      reasons: assessment.reasons.map(({ rule }) => ({
        rule,
        reason: onOneLine(book.rule(rule)?.reason ?? rule),
      })),
      protocol: assessment.protocol,
      trustLine: frame.trustLine,
      notADiagnosis: frame.notADiagnosis,
    },
    leftOut: [...leaveOut],
  }
}
