import type {
  CarePlanWords,
  CompiledProtocol,
  Condition,
  Fact,
  QuestionWords,
  RuleWords,
  Words,
} from '../../../shared/compiled.ts'
import type { Level } from '../../../shared/urgency.ts'

/** All words of a protocol in one place, whatever part they were compiled into. */
export interface Lookup {
  readonly question: (id: string) => QuestionWords | undefined
  readonly rule: (id: string) => RuleWords | undefined
  readonly carePlan: (id: string) => CarePlanWords | undefined
  readonly finding: (id: string) => Words['findings'][string] | undefined
}

/** The words of the danger phase, the common part and every concern, looked up by id. */
export function lookupOf(protocol: CompiledProtocol): Lookup {
  const parts = [protocol.dangerWords, protocol.commonWords, ...Object.values(protocol.concernWords)]
  const find =
    <Value>(pick: (words: Words) => Readonly<Record<string, Value>>) =>
    (id: string): Value | undefined =>
      parts.map(words => pick(words)[id]).find(one => one !== undefined)
  return {
    question: find(words => words.questions),
    rule: find(words => words.rules),
    carePlan: find(words => words.carePlans),
    finding: find(words => words.findings),
  }
}

/** `week, within 72 hours`. */
export function levelText({ urgency, withinHours }: Level): string {
  return withinHours === undefined || withinHours === 0 ? urgency : `${urgency}, within ${withinHours} hours`
}

function quoted(texts: readonly string[]): string {
  return texts.map(text => `“${text}”`).join(' or ')
}

function optionTexts(protocol: CompiledProtocol, lookup: Lookup, fact: Fact): readonly string[] {
  if (fact.kind === 'sign') {
    const screen = protocol.logic.questions[fact.screen.fact]
    const at = screen?.options.indexOf(fact.id) ?? -1
    return [lookup.question(screen?.id ?? '')?.options[at]?.text ?? fact.id]
  }
  if (fact.kind === 'question')
    return lookup.question(fact.id)?.options.map(({ text }) => text) ?? fact.options
  return lookup.finding(fact.id)?.bands ?? fact.options
}

/** A condition in plain words: the questions as asked, the answers as shown. */
export function conditionText(protocol: CompiledProtocol, lookup: Lookup, condition: Condition): string {
  const say = (one: Condition, nested: boolean): string => {
    if (one.kind === 'atom') {
      const fact = protocol.logic.facts[one.fact]
      if (!fact) return 'never'
      const texts = optionTexts(protocol, lookup, fact)
      const named = quoted(texts.filter((_, index) => one.options & (1 << index)))
      if (fact.kind === 'sign') return `danger sign ${named}`
      if (fact.kind === 'question') return `${lookup.question(fact.id)?.ask ?? fact.id} ${named}`
      return `${lookup.finding(fact.id)?.name ?? fact.id}: ${named}`
    }
    if (one.of.length === 1 && one.kind !== 'atLeast' && one.of[0]) return say(one.of[0], nested)
    const parts = one.of.map(part => say(part, true))
    if (one.kind === 'atLeast') return `at least ${one.count} of (${parts.join('; ')})`
    const joined = parts.join(one.kind === 'all' ? ', and ' : ', or ')
    return nested ? `(${joined})` : joined
  }
  return say(condition, false)
}
