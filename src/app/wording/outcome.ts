import type { Assessment, CareItem, Ground, Reason } from '../../../shared/assessment.ts'
import type { CaseFile } from '../../../shared/case-file.ts'
import type { Question, SourceWords } from '../../../shared/compiled.ts'
import { URGENCIES, type Urgency } from '../../../shared/urgency.ts'
import { factsIn } from '../../triage/prepare.ts'
import type { TimeCircleProps } from '../parts/TimeCircle.tsx'
import { saidWords } from './answers.ts'
import { type Book, notTicked, optionTexts } from './book.ts'
import { dayAndPart, dial, lookWords, pastDay } from './dates.ts'
import { labels, unitWords } from './labels.ts'

/** Turns an assessment into the lines of the outcome. It decides nothing: it only looks words up. */

export interface Told {
  readonly book: Book
  readonly assessment: Assessment
  readonly caseFile: CaseFile
  readonly locale: string
}

const BASE = 'base'

const unique = (lines: readonly string[]) => [...new Set(lines)]

/** First sentence and the rest. */
export function headAndRest(text: string): readonly [string, string] {
  const end = text.search(/[.?!] /)
  return end < 0 ? [text, ''] : [text.slice(0, end + 1), text.slice(end + 2)]
}

/** The latest time to be seen, or the first look at home. */
export function circle({ assessment, locale, book }: Told): TimeCircleProps | undefined {
  const { now, seenBy, urgency, lookAgain } = assessment
  // There is no time to show where it is now.
  if (urgency === 'now') return undefined
  if (seenBy)
    return {
      lead: labels.seen,
      day: labels.by(dayAndPart(seenBy.instant, now, locale, seenBy.partOfDay)),
      note: labels.soonerIsBetter,
      ...dial(seenBy.instant, now),
    }
  const told = plansTold(assessment)
  const first = lookAgain.find(({ plan }) => told.has(plan))
  if (!first) return undefined
  return {
    lead: labels.lookAgain,
    day: lookWords(first.at, hoursOf(book, first), now, locale),
    note: labels.lookAgainFirst,
    ...dial(first.at, now),
  }
}

function hoursOf(book: Book, look: Assessment['lookAgain'][number]): number | undefined {
  return book.logic.carePlans.find(({ id }) => id === look.plan)?.lookAgain[look.index]?.hours
}

/** Plans of which at least one step is told: a plan whose every step was left out has nothing to look at. */
function plansTold({ care }: Assessment): Set<string> {
  return new Set([...care.firstAid, ...care.holding, ...care.steps].map(({ plan }) => plan))
}

/** Reasons worth telling: a concern's own starting point only where nothing else was found for it. */
export function reasons({ assessment, book }: Told): readonly Reason[] {
  const isBase = (reason: Reason) =>
    book.logic.rules.some(({ id, origin }) => id === reason.rule && origin === BASE)
  const found = new Set(assessment.reasons.filter(reason => !isBase(reason)).map(({ concern }) => concern))
  return assessment.reasons.filter(reason => !isBase(reason) || !found.has(reason.concern))
}

/** When to look again, times that fall together under one heading. */
export function looks({ assessment, book, locale }: Told): { when: string; what: string[] }[] {
  const groups = new Map<string, string[]>()
  const told = plansTold(assessment)
  for (const look of assessment.lookAgain.filter(({ plan }) => told.has(plan))) {
    const when = lookWords(look.at, hoursOf(book, look), assessment.now, locale)
    const what = book.plan(look.plan)?.lookAgain[look.index]
    if (what !== undefined) groups.set(when, unique([...(groups.get(when) ?? []), what]))
  }
  return [...groups].map(([when, what]) => ({ when, what }))
}

function placeIn(book: Book, item: CareItem, list: 'steps' | 'nevers'): number {
  const plan = book.logic.carePlans.find(({ id }) => id === item.plan)
  return plan ? plan[list].findIndex(({ id }) => id === item.item) : -1
}

function stepText(book: Book, item: CareItem): string {
  return book.plan(item.plan)?.steps[placeIn(book, item, 'steps')]?.text ?? ''
}

function neverText(book: Book, item: CareItem): string {
  return book.plan(item.plan)?.nevers[placeIn(book, item, 'nevers')]?.text ?? ''
}

export interface PlanPart {
  readonly id: string
  readonly title: string
  readonly opening: string | undefined
  readonly steps: readonly string[]
}

/** Steps by the plan they come from, each sentence once. */
export function planParts(
  book: Book,
  items: readonly CareItem[],
  shown: Set<string> = new Set(),
): PlanPart[] {
  return unique(items.map(({ plan }) => plan)).flatMap(id => {
    const steps = items.filter(({ plan }) => plan === id).map(item => stepText(book, item))
    const fresh = unique(steps).filter(text => text !== '' && !shown.has(text))
    for (const text of fresh) shown.add(text)
    const words = book.plan(id)
    return fresh.length === 0
      ? []
      : [{ id, title: words?.title ?? '', opening: words?.opening, steps: fresh }]
  })
}

export function nevers({ book, assessment }: Told): string[] {
  return unique(assessment.care.nevers.map(item => neverText(book, item))).filter(text => text !== '')
}

/** What was left out and why; and what only waits for a vet. */
export function leftOut({ book, assessment }: Told): { because: string[]; waiting: string[] } {
  const because: string[] = []
  const waiting: string[] = []
  for (const { because: kind, by, ...item } of assessment.care.leftOut) {
    const step = book.plan(item.plan)?.steps[placeIn(book, item, 'steps')]
    if (!step) continue
    if (kind === 'not-while-waiting') waiting.push(step.text)
    else if (kind === 'forbidden') because.push(step.forbiddenBecause ?? step.text)
    else {
      const other = by ? (kind === 'never' ? neverText(book, by) : stepText(book, by)) : ''
      because.push(`${step.text} ${other === '' ? '' : `Left out, because: ${other}`}`.trim())
    }
  }
  return { because: unique(because), waiting: unique(waiting) }
}

/** Signs that end the waiting, first those the plans name, then whatever else would raise the answer. */
export function soonerIf({ book, assessment }: Told): {
  named: string[]
  others: { urgency: Urgency; signs: string[] }[]
} {
  const told = plansTold(assessment)
  const plans = assessment.care.plans.filter(plan => told.has(plan))
  const named = unique(plans.flatMap(plan => book.plan(plan)?.getHelpIf ?? []))
  const others = [...URGENCIES]
    .reverse()
    .map(urgency => ({
      urgency,
      signs: unique(
        assessment.wouldRaise
          .filter(({ level }) => level.urgency === urgency)
          .map(({ missing }) => groundName(book, missing))
          .filter(text => text !== ''),
      ),
    }))
    .filter(({ signs }) => signs.length > 0)
  return { named, others }
}

/** A sign or a line that is not there yet, in words. */
function groundName(book: Book, ground: Ground): string {
  const facts = book.logic.facts.filter(({ id }) => id === ground.fact)
  for (const fact of facts) {
    if (fact.kind === 'sign') return book.sign(fact.id)
    if (fact.kind === 'question') {
      const question = book.logic.questions[fact.question]
      if (!question || question.phase === 'concern') continue
      const [first] = optionTexts(book, question, ground.options)
      if (first === undefined) continue
      return question.kind === 'several' ? first : `${book.question(question.id)?.ask ?? ''} ${first}`
    }
    const words = book.finding(fact.id)
    const at = fact.options.findIndex(option => ground.options.includes(option))
    if (words) return `${words.name}: ${words.bands[at] ?? ''}`
  }
  return ''
}

/** Why a rule holds, in the owner's own answers and numbers. */
export function becauseLines(told: Told, reason: Reason): string[] {
  return unique(reason.because.flatMap(ground => groundLines(told, ground)))
}

function groundLines(told: Told, ground: Ground): string[] {
  const { book, caseFile, assessment, locale } = told
  const asked = ground.questions.flatMap(id => book.logicOf(id) ?? [])
  const bySign = asked.filter(({ signs }) => signs.includes(ground.fact))
  const said = (question: Question) => saidWords(book, caseFile, question.id, assessment.now, locale)
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

/** The sources a reason rests on, each once, in the order of its evidence. */
export function sourcesOf(book: Book, reason: Reason): SourceWords[] {
  const ids = unique(reason.evidence.flatMap(row => book.evidence(row)?.sources ?? []))
  return ids.flatMap(id => book.source(id) ?? [])
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
export function unknowns({
  book,
  assessment,
  caseFile,
}: Told): { ask: string; why: string; matters: string }[] {
  const why = {
    'cannot-tell': labels.notSure,
    'cannot-measure': labels.neverMeasured,
    'not-asked': labels.notAsked,
    lapsed: labels.lapsedShort,
  }
  const weighed = (id: string) => caseFile.weighIns.length > 0 && book.logicOf(id)?.kind === 'weights'
  return assessment.missing
    .filter(({ question }) => !weighed(question))
    .map(missing => ({
      ask: book.question(missing.question)?.ask ?? '',
      why: why[missing.why],
      matters: missing.stillMatters ? labels.stillMatters : labels.noMatter,
    }))
}

/** Care questions that change what this outcome tells to do. */
export function careQuestions({ book, assessment }: Told): Question[] {
  const plans = book.logic.carePlans.filter(({ id }) => assessment.care.plans.includes(id))
  const facts = new Set(
    plans.flatMap(plan => [
      ...plan.steps.flatMap(step => [...factsIn(step.onlyWhen), ...factsIn(step.forbiddenWhen)]),
      ...plan.nevers.flatMap(never => factsIn(never.onlyWhen)),
    ]),
  )
  return book.logic.questions.filter(({ phase, fact }) => phase === 'care' && facts.has(fact))
}

/** The names of concerns. */
export function concernNames(book: Book, ids: readonly string[]): string[] {
  return ids.map(id => book.frame.concerns.find(one => one.id === id)?.name ?? id)
}
