import type { CaseFile } from '../../../shared/case-file.ts'
import type {
  CarePlanWords,
  EvidenceWords,
  Frame,
  Logic,
  Question,
  QuestionWords,
  RuleWords,
  SourceWords,
  Words,
} from '../../../shared/compiled.ts'
import { wordBook } from '../../handover/word-book.ts'

/** The parts of the protocol's words that arrive after the first screens. */
export interface LaterWords {
  readonly commonWords: Words
  readonly concernWords: Readonly<Record<string, Words>>
  readonly evidence: Readonly<Record<string, EvidenceWords>>
  readonly sources: Readonly<Record<string, SourceWords>>
}

/** All words that are there so far, looked up by id. */
export interface Book {
  readonly logic: Logic
  readonly frame: Frame
  readonly complete: boolean
  readonly question: (id: string) => QuestionWords | undefined
  readonly rule: (id: string) => RuleWords | undefined
  readonly plan: (id: string) => CarePlanWords | undefined
  readonly finding: (id: string) => Words['findings'][string] | undefined
  readonly evidence: (id: string) => EvidenceWords | undefined
  readonly source: (id: string) => SourceWords | undefined
  readonly logicOf: (question: string) => Question | undefined
  /** What the owner sees where this sign is there. */
  readonly sign: (id: string) => string
}

/** Makes the book of what has been loaded. */
export function bookOf(logic: Logic, frame: Frame, dangerWords: Words, later: LaterWords | undefined): Book {
  const parts = [dangerWords, ...(later ? [later.commonWords, ...Object.values(later.concernWords)] : [])]
  const words = wordBook(logic, parts)
  return {
    logic,
    frame,
    complete: later !== undefined,
    question: words.question,
    rule: words.rule,
    plan: words.carePlan,
    finding: words.finding,
    evidence: id => later?.evidence[id],
    source: id => later?.sources[id],
    logicOf: id => logic.questions.find(one => one.id === id),
    sign: id => words.sign(id) ?? id,
  }
}

/** The texts of some options of a question, in the order of the options. */
export function optionTexts(book: Book, question: Question, options: readonly string[]): string[] {
  const words = book.question(question.id)
  return question.options.flatMap((option, at) =>
    options.includes(option) ? [words?.options[at]?.text ?? option] : [],
  )
}

/** Lines of a case that were offered, looked for and not ticked, each with nothing else said about it. */
export function notTicked(book: Book, caseFile: CaseFile): string[] {
  return book.logic.questions.flatMap(question => {
    const answer = caseFile.answers[question.id]
    if (answer?.kind !== 'several' || answer.rest !== 'no' || question.phase === 'concern') return []
    return optionTexts(
      book,
      question,
      question.options.filter(option => !answer.chosen.includes(option)),
    )
  })
}
