import { CANNOT_MEASURE } from '../../../shared/answers.ts'
import type { Assessment, CareItem, Ground } from '../../../shared/assessment.ts'
import type { CaseFile } from '../../../shared/case-file.ts'
import type { CareStep, NeverDo, Question } from '../../../shared/compiled.ts'
import { URGENCIES, type Urgency } from '../../../shared/urgency.ts'
import { factsIn } from '../../triage/prepare.ts'
import { type Book, optionTexts } from './book.ts'
import { labels } from './labels.ts'

/** Turns an assessment into what to do and what to watch for. It decides nothing: it only looks words up. */

export interface Told {
  readonly book: Book
  readonly assessment: Assessment
  readonly caseFile: CaseFile
  readonly locale: string
}

/** What is read at once, and what is one tap away. */
export interface OpenAndFolded<Item> {
  readonly open: readonly Item[]
  readonly folded: readonly Item[]
}

/** How many never-dos and signs stand open: what a frightened reader takes in at a glance. */
const MOST_OPEN = 4
const MOST_CAUTIONS_OPEN = 2
/** Plans stand open one after the other until this many steps are shown; the first one always does. */
const MOST_STEPS_OPEN = 7

export const unique = (lines: readonly string[]) => [...new Set(lines)]

/** First sentence and the rest. */
export function headAndRest(text: string): readonly [string, string] {
  const end = text.search(/[.?!] /)
  return end < 0 ? [text, ''] : [text.slice(0, end + 1), text.slice(end + 2)]
}

/** Plans of which at least one step is told: a plan whose every step was left out has nothing to look at. */
export function plansTold({ care }: Assessment): Set<string> {
  return new Set([...care.firstAid, ...care.holding, ...care.steps].map(({ plan }) => plan))
}

interface Found<Logic> {
  readonly text: string
  readonly logic: Logic
  readonly forbiddenBecause?: string
}

/** A step or a never-do: what it does and what it says. */
function itemOf(book: Book, item: CareItem, list: 'steps'): Found<CareStep> | undefined
function itemOf(book: Book, item: CareItem, list: 'nevers'): Found<NeverDo> | undefined
function itemOf(
  book: Book,
  { plan, item }: CareItem,
  list: 'steps' | 'nevers',
): Found<CareStep | NeverDo> | undefined {
  const all = book.logic.carePlans.find(({ id }) => id === plan)?.[list] ?? []
  const at = all.findIndex(({ id }) => id === item)
  const logic = all[at]
  const words = book.plan(plan)?.[list][at]
  return logic && words && { ...words, logic }
}

export interface PlanPart {
  readonly id: string
  readonly title: string
  readonly opening: string | undefined
  readonly steps: readonly string[]
}

/** An opening that several plans share says nothing of this one. */
function ownOpening(book: Book, opening: string | undefined): string | undefined {
  const sharing = book.logic.carePlans.filter(({ id }) => book.plan(id)?.opening === opening)
  return sharing.length > 1 ? undefined : opening
}

/** The owner said that there is no scale, and no weight is known. */
function hasNoScale({ book, caseFile }: Told): boolean {
  return (
    caseFile.weighIns.length === 0 &&
    book.logic.questions.some(
      ({ id, kind }) => kind === 'weights' && caseFile.answers[id]?.kind === CANNOT_MEASURE,
    )
  )
}

/**
 * Steps by the plan they come from, each sentence once. Where there is no scale, whatever is weighed stands together
 * at the end instead of being asked for again and again.
 */
export function planParts(told: Told, items: readonly CareItem[], shown: Set<string>): PlanPart[] {
  const { book } = told
  const noScale = hasNoScale(told)
  const withScale: string[] = []
  const parts = unique(items.map(({ plan }) => plan)).flatMap((id): PlanPart[] => {
    const steps = items.flatMap(item => (item.plan === id ? (itemOf(book, item, 'steps') ?? []) : []))
    const fresh = steps.filter(({ text }) => !shown.has(text))
    for (const { text } of fresh) shown.add(text)
    const weighing = fresh.filter(({ logic }) => noScale && logic.act === 'weigh')
    withScale.push(...unique(weighing.map(({ text }) => text)))
    const rest = unique(fresh.filter(step => !weighing.includes(step)).map(({ text }) => text))
    const words = book.plan(id)
    return rest.length === 0
      ? []
      : [{ id, title: words?.title ?? '', opening: ownOpening(book, words?.opening), steps: rest }]
  })
  return withScale.length === 0
    ? parts
    : [...parts, { id: 'with-scale', title: labels.withScale, opening: undefined, steps: withScale }]
}

/** Plans that stand open and plans that are folded under their titles. */
export function openPlans(parts: readonly PlanPart[]): OpenAndFolded<PlanPart> {
  let steps = 0
  const at = parts.findIndex((part, place) => {
    steps += part.steps.length
    return place > 0 && steps > MOST_STEPS_OPEN
  })
  return at < 0 ? { open: parts, folded: [] } : { open: parts.slice(0, at), folded: parts.slice(at) }
}

/** The heading of first aid, by what its plans do first: "press, then phone" must not stand under "while you phone". */
export function firstAidTitle({ book, assessment }: Told): string {
  const acts = assessment.care.firstAid.map(item => itemOf(book, item, 'steps')?.logic.act)
  return acts.indexOf('phone') > 0 ? labels.firstThenPhone : labels.doNow
}

/** Never-dos of the plans in their order; what forbids the same act on the same part again is folded. */
export function nevers({ book, assessment }: Told): OpenAndFolded<string> {
  const said = new Set<string>()
  const found = assessment.care.nevers.flatMap(item => itemOf(book, item, 'nevers') ?? [])
  const fresh = found.filter(({ logic }) => {
    const key = `${logic.act} ${logic.part}`
    if (logic.act === undefined || !said.has(key)) {
      said.add(key)
      return true
    }
    return false
  })
  const open = unique(fresh.map(({ text }) => text)).slice(0, MOST_OPEN)
  return { open, folded: unique(found.map(({ text }) => text)).filter(text => !open.includes(text)) }
}

/** What was left out and why; and what only waits for a vet. */
export function leftOut({ book, assessment }: Told): { because: string[]; waiting: string[] } {
  const because: string[] = []
  const waiting: string[] = []
  for (const { because: kind, by, ...item } of assessment.care.leftOut) {
    const step = itemOf(book, item, 'steps')
    if (!step) continue
    if (kind === 'not-while-waiting') waiting.push(step.text)
    else if (kind === 'forbidden') because.push(step.forbiddenBecause ?? step.text)
    else {
      const other = by && (kind === 'never' ? itemOf(book, by, 'nevers') : itemOf(book, by, 'steps'))
      because.push(`${step.text} ${other ? `${labels.leftOutBecause} ${other.text}` : ''}`.trim())
    }
  }
  return { because: unique(because), waiting: unique(waiting) }
}

/** Signs that end the waiting, first those the plans name, then whatever else would raise the answer. */
export function soonerIf({ book, assessment }: Told): OpenAndFolded<string> & {
  readonly others: readonly { readonly urgency: Urgency; readonly signs: readonly string[] }[]
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
  return { open: named.slice(0, MOST_OPEN), folded: named.slice(MOST_OPEN), others }
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

/** Cautions that bear on what this outcome tells to do, the first few of them open, and all the others. */
export function cautions({ book, assessment }: Told): OpenAndFolded<string> {
  const { care } = assessment
  const acts = new Set(
    [...care.firstAid, ...care.holding, ...care.steps].map(item => itemOf(book, item, 'steps')?.logic.act),
  )
  const bears = (one: { readonly acts?: readonly CareStep['act'][] | undefined }) =>
    one.acts?.some(act => acts.has(act)) === true
  const all = book.frame.cautions
  const open = all.filter(bears).slice(0, MOST_CAUTIONS_OPEN)
  return {
    open: open.map(({ text }) => text),
    folded: all.filter(one => !open.includes(one)).map(({ text }) => text),
  }
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
