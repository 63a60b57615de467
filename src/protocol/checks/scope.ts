import type { Condition, Logic } from '../../../shared/compiled.ts'
import { factsIn, questionsOfFact } from '../../triage/prepare.ts'
import type { Checking } from './context.ts'

const MOST_QUESTIONS = 8

/** The concern's question that a fact rests on directly; danger signs rest on their screen. */
function ownerOf(logic: Logic, index: number): { question: string; concern: string } | undefined {
  const fact = logic.facts[index]
  if (!fact || fact.kind === 'sign') return undefined
  const at =
    fact.kind === 'weight-loss'
      ? fact.measuredBy
      : fact.kind === 'season'
        ? fact.hemisphere.fact
        : fact.question
  const question = logic.questions[at]
  return question?.concern === undefined ? undefined : { question: question.id, concern: question.concern }
}

/** What a rule asks for: questions with their gates; a danger sign is one thing, however often it is asked again. */
function mentions(logic: Logic, facts: readonly number[]): string[] {
  const signs = facts.flatMap(fact => (logic.facts[fact]?.kind === 'sign' ? [logic.facts[fact].id] : []))
  const questions = facts
    .filter(fact => logic.facts[fact]?.kind !== 'sign')
    .flatMap(fact => questionsOfFact(logic, fact))
  return [...signs, ...new Set(questions)].map(one =>
    typeof one === 'string' ? one : (logic.questions[one]?.id ?? ''),
  )
}

/** Rules stay small, and a concern's questions belong to its own rules and gates. */
export function checkScope({ logic, rules, questions, refuse }: Checking): void {
  const foreign = (condition: Condition | undefined, concern: string | undefined) =>
    factsIn(condition)
      .flatMap(fact => ownerOf(logic, fact) ?? [])
      .filter(owner => owner.concern !== concern)
  for (const { prepared, document, path } of rules) {
    const { rule } = prepared
    const at = [...path, ...(rule.origin === 'concern' || rule.origin === 'general' ? ['when'] : [])]
    const mentioned = mentions(logic, prepared.facts)
    if (mentioned.length > MOST_QUESTIONS)
      refuse(
        document,
        at,
        `rule ${rule.id}: mentions ${mentioned.length} questions (${mentioned.join(', ')}), gates included; accepted: at most ${MOST_QUESTIONS}`,
      )
    for (const { question, concern } of foreign(rule.when, rule.concern))
      refuse(
        document,
        at,
        `rule ${rule.id}: mentions ${question}, a question of ${concern}; accepted: ${rule.concern === undefined ? 'common questions, findings and signs' : `questions of ${rule.concern}, common questions, findings and signs`}`,
      )
  }
  logic.questions.forEach((question, index) => {
    const placed = questions[index]
    if (!placed || question.phase === 'handover' || question.phase === 'care') return
    for (const { question: other, concern } of foreign(question.gate, question.concern))
      refuse(
        placed.document,
        [...placed.path, 'onlyIf'],
        `${question.id}: onlyIf: mentions ${other}, a question of ${concern}; accepted: ${question.concern === undefined ? 'the concern and common questions' : `questions of ${question.concern}`}`,
      )
  })
}
