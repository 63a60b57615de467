import type { Answer, CaseFile, WeighIn } from '../../shared/case-file.ts'
import type { Logic } from '../../shared/compiled.ts'

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

/** The log of somebody who began with "it is this animal": the species question answered with its first option. */
export function logOfThisAnimal(logic: Logic, given: string): LogEntry[] {
  const question = logic.questions[logic.speciesQuestion]
  const choice = question?.options[0]
  return question && choice !== undefined
    ? [{ question: question.id, answer: { kind: 'choice', choice, given } }]
    : []
}
