import type { Answer, CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { DangerPart } from '../../shared/compiled.ts'

/** One answer as it was given. The log of these is what is stored; a case file is made of it. */
export interface LogEntry {
  readonly question: string
  readonly answer: Answer
  /** Weigh-ins that came with the answer to a question of weights. */
  readonly weighIns?: readonly WeighIn[]
}

/** The case file that a log makes of a base (the record's part); a later answer replaces an earlier one. */
export function caseFileOf(base: CaseFile, log: readonly LogEntry[]): CaseFile {
  const answers: Record<string, Answer> = { ...base.answers }
  const weighIns = [...base.weighIns]
  for (const entry of log) {
    answers[entry.question] = entry.answer
    weighIns.push(...(entry.weighIns ?? []))
  }
  return { ...base, answers, weighIns }
}

/** The log with one more entry; an earlier answer to the same question leaves it. */
export function withEntry(log: readonly LogEntry[], entry: LogEntry): LogEntry[] {
  return [...log.filter(({ question }) => question !== entry.question), entry]
}

/** What the start page said for the owner: which animal it is, and the concerns whose doors were taken. */
export interface Told {
  readonly thisAnimal: boolean
  /** In the protocol's order. */
  readonly concerns?: readonly string[]
}

/** The log with which a case begins: what the start page has told is an answer like any other. */
export function logOfStart(
  { thisAnimal, concernQuestion }: Pick<DangerPart, 'thisAnimal' | 'concernQuestion'>,
  told: Told,
  given: string,
): LogEntry[] {
  const log: LogEntry[] = []
  if (told.thisAnimal && thisAnimal)
    log.push({ question: thisAnimal.question, answer: { kind: 'choice', choice: thisAnimal.choice, given } })
  if (told.concerns !== undefined)
    log.push({
      question: concernQuestion,
      answer: { kind: 'several', chosen: [...told.concerns], rest: 'no', given },
    })
  return log
}
