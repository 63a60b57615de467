import type { CareItem } from '../../shared/assessment.ts'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import type { Handover, HandoverFact } from '../../shared/handover.ts'
import { wallClock } from './wall-clock.ts'
import type { WordBook } from './word-book.ts'

/** What is left out, in words. */
export const PART_WORDS: Readonly<Record<Handover['leftOut'][number], string>> = {
  name: 'its name',
  weights: 'its weights',
  readings: 'readings of its home',
  past: 'past sheds, meals and other events',
  answers: 'the list of every answer',
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map(line => `- ${line}`)]
}

/** How many days before the page was made, as in "3 days ago". */
export function agoWords(daysAgo: number): string {
  if (daysAgo === 0) return 'today'
  return daysAgo === 1 ? '1 day ago' : `${daysAgo} days ago`
}

/** How a fact is known and when it was so: "seen, 2026-11-25, today". */
export function knownWords({ tag, at, daysAgo }: HandoverFact, zone: string): string {
  return [
    tag,
    at === undefined ? undefined : wallClock(at, zone).day,
    daysAgo === undefined ? undefined : agoWords(daysAgo),
  ]
    .filter(part => part !== undefined)
    .join(', ')
}

/** The words of steps or never-dos of an assessment's care. */
export function careWords(
  { logic }: Pick<CompiledProtocol, 'logic'>,
  book: WordBook,
  items: readonly CareItem[],
  kind: 'steps' | 'nevers',
): string[] {
  return items.map(({ plan: id, item }) => {
    const at = logic.carePlans.find(plan => plan.id === id)?.[kind].findIndex(one => one.id === item) ?? -1
    return book.carePlan(id)?.[kind][at]?.text ?? item
  })
}

/** What is done until it is seen; the owner's own text has it, a clinic's does not. */
export interface CareText {
  readonly steps: readonly string[]
  readonly nevers: readonly string[]
}

/**
 * The history as plain text, for an e-mail, a chart or the telephone. Danger signs come before answers, and this
 * guide's own urgency stands last, so that it does not lead. Computes nothing.
 */
export function textPage(history: Handover, care?: CareText): string {
  const { made, animal, dangerSigns, weights, guide } = history
  const day = (instant: string) => wallClock(instant, made.zone).day
  const time = wallClock(made.instant, made.zone)
  const fact = (one: HandoverFact) => `${one.label} ${one.value} (${knownWords(one, made.zone)})`
  const signs = (title: string, facts: readonly HandoverFact[]) => {
    // Thirty signs looked for in one go share their date: it is said once.
    const known = new Set(facts.map(one => knownWords(one, made.zone)))
    const shared = known.size === 1 ? ` (${[...known].join('')})` : ''
    return section(
      `${title}${shared}`,
      facts.map(one => (shared === '' ? `${one.label} (${knownWords(one, made.zone)})` : one.label)),
    )
  }
  const latest = weights.weighIns.slice(-LATEST_WEIGHTS)
  return `${[
    history.readAloud,
    `${animal.species} (${animal.latin})${animal.name ? `, ${animal.name}` : ''}. Told on ${time.day} at ${time.time} (${made.zone}).`,
    ...(history.note === undefined ? [] : [history.note]),
    ...section('A vet is treating it', history.underVet.map(fact)),
    ...section('Keep it apart in the waiting room', history.keepApart),
    ...signs('Danger signs that are there', dangerSigns.present),
    ...signs('Looked, could not tell', dangerSigns.unsure),
    ...signs('Asked and not there', dangerSigns.absent),
    ...section('Not asked', dangerSigns.notAsked),
    ...section('Weight, measured', [
      ...(weights.summary === undefined ? [] : [weights.summary]),
      ...latest.map(
        ({ at, massGrams, scaleStepGrams }) =>
          `${massGrams} g on ${day(at)}${scaleStepGrams === undefined ? '' : `, scale in steps of ${scaleStepGrams} g`}`,
      ),
      ...(weights.weighIns.length > latest.length
        ? [`${weights.weighIns.length} weights in all since ${day(weights.weighIns[0]?.at ?? made.instant)}`]
        : []),
    ]),
    ...history.sections.flatMap(({ title, facts }) => section(title, facts.map(fact))),
    ...section('Do', care?.steps ?? []),
    ...section('Never', care?.nevers ?? []),
    ...section('Other answers', otherAnswers(history).map(fact)),
    ...section(
      'Left out by the owner',
      history.leftOut.map(part => PART_WORDS[part]),
    ),
    ...section('What this guide made of it', [
      guide.result,
      ...(guide.seenBy === undefined ? [] : [`To be seen by ${guide.seenBy}`]),
      ...guide.reasons.map(({ rule, reason }) => `${reason} [${rule}]`),
      `Guide version ${guide.protocol.version} (${guide.protocol.hash}). ${guide.trustLine} ${guide.notADiagnosis}`,
    ]),
  ].join('\n')}\n`
}

/** Answers that stand in no section above. */
function otherAnswers({ sections, answers }: Handover): HandoverFact[] {
  const shown = new Set(sections.flatMap(({ facts }) => facts.map(({ label }) => label)))
  return answers.filter(({ label }) => !shown.has(label))
}

/** "Last three readings as numbers" is what a vet wants; a page has room for a few more. */
const LATEST_WEIGHTS = 6
