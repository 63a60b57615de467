import type {
  CarePlanWords,
  CompiledProtocol,
  QuestionWords,
  RuleWords,
  Words,
} from '../../shared/compiled.ts'

/** The words of every part of a protocol in one place, looked up by id. */
export interface WordBook {
  readonly question: (id: string) => QuestionWords | undefined
  readonly rule: (id: string) => RuleWords | undefined
  readonly carePlan: (id: string) => CarePlanWords | undefined
  readonly finding: (id: string) => Words['findings'][string] | undefined
  /** The line of a danger screen for a sign. */
  readonly sign: (id: string) => string | undefined
}

/** Makes the word book of the parts of a protocol that are loaded. */
export function wordBook(logic: CompiledProtocol['logic'], parts: readonly Words[]): WordBook {
  const first = <Value>(look: (part: Words) => Value | undefined): Value | undefined =>
    parts.map(look).find(words => words !== undefined)
  const question = (id: string) => first(part => part.questions[id])
  return {
    question,
    rule: id => first(part => part.rules[id]),
    carePlan: id => first(part => part.carePlans[id]),
    finding: id => first(part => part.findings[id]),
    sign(id) {
      const screen = logic.questions.find(({ phase, options }) => phase === 'danger' && options.includes(id))
      const at = screen?.options.indexOf(id) ?? -1
      return screen && question(screen.id)?.options[at]?.text
    },
  }
}

/** Every part of a compiled protocol, for the command line and the whole page. */
export function allWords(protocol: CompiledProtocol): Words[] {
  return [protocol.dangerWords, protocol.commonWords, ...Object.values(protocol.concernWords)]
}
