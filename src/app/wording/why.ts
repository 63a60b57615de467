import type { Ground, Reason } from '../../../shared/assessment.ts'
import type { Question, SourceWords } from '../../../shared/compiled.ts'
import { unitWords } from '../../handover/answer-words.ts'
import { saidWords } from './answers.ts'
import { type Book, notTicked, optionTexts } from './book.ts'
import { pastDay } from './dates.ts'
import { labels } from './labels.ts'
import { type OpenAndFolded, type Told, unique } from './outcome.ts'

/** Why the answer is what it is: reasons, sources, what was not found and what could not be told. */

const BASE = 'base'

/** How many reasons stand open. */
const MOST_OPEN = 2

/**
 * Reasons worth telling: a concern's own starting point only where nothing else was found for it. Those that make the
 * answer stand open; milder ones and further ones are folded.
 */
export function reasons({ assessment, book }: Told): OpenAndFolded<Reason> {
  const isBase = (reason: Reason) =>
    book.logic.rules.some(({ id, origin }) => id === reason.rule && origin === BASE)
  const found = new Set(assessment.reasons.filter(reason => !isBase(reason)).map(({ concern }) => concern))
  const told = assessment.reasons.filter(reason => !isBase(reason) || !found.has(reason.concern))
  const open = told.filter(({ level }) => level.urgency === assessment.urgency).slice(0, MOST_OPEN)
  return { open, folded: told.filter(reason => !open.includes(reason)) }
}

/** Why a rule holds, in the owner's own answers and numbers. */
export function becauseLines(told: Told, reason: Reason): string[] {
  return unique(reason.because.flatMap(ground => groundLines(told, ground)))
}

function groundLines(told: Told, ground: Ground): string[] {
  const { book, caseFile, assessment, locale } = told
  const reading = { now: assessment.now, locale }
  const asked = ground.questions.flatMap(id => book.logicOf(id) ?? [])
  const bySign = asked.filter(({ signs }) => signs.includes(ground.fact))
  const said = (question: Question) => saidWords(book, caseFile, question.id, reading)
  if (bySign.length > 0)
    return bySign.map(question => {
      const answer = caseFile.answers[question.id]
      const chosen =
        answer?.kind === 'several' ? answer.chosen : answer?.kind === 'choice' ? [answer.choice] : []
      const saying = question.options.filter(
        (option, at) => question.signs[at] === ground.fact && chosen.includes(option),
      )
      const texts = optionTexts(book, question, saying)
      return texts.length > 0
        ? quoted(texts.join('; '))
        : `${quoted(book.sign(ground.fact))}, ${labels.notSure}`
    })
  const fact = book.logic.facts.find(({ id, kind }) => id === ground.fact && kind !== 'sign')
  if (fact?.kind === 'question') {
    const question = book.logic.questions[fact.question]
    if (!question) return []
    const texts = optionTexts(book, question, ground.options)
    const ask = book.question(question.id)?.ask ?? ''
    return [`${ask} ${texts.length > 0 ? quoted(texts.join('; ')) : labels.notSure}`]
  }
  if (fact?.kind === 'weight-loss') return weightLines(told)
  const words = book.finding(ground.fact)
  const at = fact?.options.findIndex(option => ground.options.includes(option)) ?? -1
  const band = words ? [`${words.name}: ${words.bands[at] ?? labels.neverMeasured}.`] : []
  return [
    ...band,
    ...asked.map(question => `${book.question(question.id)?.ask ?? ''} ${quoted(said(question))}`),
  ]
}

const quoted = (text: string) => `“${text}”`

/** The comparison of weights in numbers. */
export function weightLines({ assessment, locale }: Told): string[] {
  const loss = assessment.weightLoss
  if (!loss) return []
  const number = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 })
  const grams = (value: number) => `${number.format(value)} ${unitWords('grams')}`
  return [
    labels.weightLost(
      grams(loss.newestGrams),
      grams(loss.referenceGrams),
      pastDay(loss.referenceAt, assessment.now, locale),
      `${number.format(loss.lossPercent)} %`,
      labels.days(loss.overDays),
    ),
    ...(loss.explainedGrams > 0 ? [labels.explained(grams(loss.explainedGrams))] : []),
    ...(loss.fresh ? [] : [labels.weightNotFresh]),
  ]
}

/** Who writes: the order in which sources are shown. Vet books and papers are told apart from what keepers write. */
const KINDS: Readonly<Record<string, string>> = {
  'vet-text': labels.sourceVet,
  paper: labels.sourcePaper,
  'welfare-body': labels.sourceWelfare,
  'data-set': labels.sourceData,
  'keeper-page': labels.sourceKeeper,
}

export interface SourceGroup {
  readonly kind: string
  readonly sources: readonly SourceWords[]
}

/** The sources a reason rests on, each once, by who wrote them. */
export function sourcesOf(book: Book, reason: Reason): SourceGroup[] {
  const ids = unique(reason.evidence.flatMap(row => book.evidence(row)?.sources ?? []))
  const sources = ids.flatMap(id => book.source(id) ?? [])
  return Object.entries(KINDS)
    .map(([kind, name]) => ({ kind: name, sources: sources.filter(one => one.class === kind) }))
    .filter(group => group.sources.length > 0)
}

/** Who made a source and when. */
export function sourceMaker(source: SourceWords): string {
  return [source.by, source.publisher, source.year === undefined ? undefined : String(source.year)]
    .filter(part => part !== undefined)
    .join(', ')
}

/** What was looked for and not found: signs first, then the other lines that were offered. */
export function notFound({ book, assessment, caseFile }: Told): string[] {
  const open = new Set(
    [...assessment.dangerSigns.present, ...assessment.dangerSigns.unsure].map(id => book.sign(id)),
  )
  return unique([
    ...assessment.dangerSigns.absent.map(id => book.sign(id)),
    ...notTicked(book, caseFile),
  ]).filter(text => !open.has(text))
}

/** What could not be told, and whether it still matters. */
export function unknowns({ book, assessment, caseFile }: Told): { line: string; matters: boolean }[] {
  const why = {
    'cannot-tell': labels.lookedNotSure,
    'cannot-measure': labels.neverMeasured,
    'not-asked': labels.notAskedWhy,
    lapsed: labels.lapsedShort,
  }
  const weighed = (id: string) => caseFile.weighIns.length > 0 && book.logicOf(id)?.kind === 'weights'
  return assessment.missing
    .filter(({ question }) => !weighed(question))
    .map(missing => ({
      line: `${book.question(missing.question)?.ask ?? ''} ${why[missing.why]}.`,
      matters: missing.stillMatters,
    }))
}
