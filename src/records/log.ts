import type { Answer, WeighIn } from '../../shared/case-file.ts'
import type { Logic, Question } from '../../shared/compiled.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'

/** One answer of the log, in the form that the wizard starts from. */
export interface LogEntry {
  readonly question: string
  readonly answer: Answer
  readonly weighIns?: readonly WeighIn[]
}

/** The log that a case's events make: an answer replaces the earlier one to its question, going back drops the last. */
export function logOf(events: readonly StoredEvent[]): LogEntry[] {
  let log: LogEntry[] = []
  for (const event of [...events].sort((one, other) => one.seq - other.seq)) {
    if (event.kind === 'went-back') log = log.slice(0, -1)
    if (event.kind !== 'answered') continue
    const { question, answer, weighIns } = event.entry
    log = log.filter(entry => entry.question !== question)
    log.push(weighIns ? { question, answer, weighIns } : { question, answer })
  }
  return log
}

/**
 * When a case's outcome was shown, if nothing came after it but what is said on the outcome itself (care) or for the
 * vet's page.
 */
export function outcomeAtOf(
  events: readonly StoredEvent[],
  logic: Pick<Logic, 'questions'>,
): string | undefined {
  const shown = events.findLastIndex(({ kind }) => kind === 'assessed')
  const changesNothing = (event: StoredEvent): boolean => {
    if (event.kind !== 'answered') return event.kind !== 'went-back'
    const question = logic.questions.find(({ id }) => id === event.entry.question)
    return question?.phase === 'care' || question?.phase === 'handover' || question?.forHandover === true
  }
  return events.slice(shown + 1).every(changesNothing) ? events[shown]?.at : undefined
}

/** Why an answer does not stand under a protocol: its question is gone, or takes no such answer any more. */
export type WhyDropped = 'question-gone' | 'answer-gone'

export interface Kept {
  readonly kept: readonly LogEntry[]
  readonly dropped: readonly { readonly entry: LogEntry; readonly why: WhyDropped }[]
}

/** Parts a log, written under any version of the protocol, into what this one still takes and the rest. */
export function keptUnder(log: readonly LogEntry[], logic: Pick<Logic, 'questions'>): Kept {
  const questions = new Map(logic.questions.map(question => [question.id, question]))
  const kept: LogEntry[] = []
  const dropped: { entry: LogEntry; why: WhyDropped }[] = []
  for (const entry of log) {
    const question = questions.get(entry.question)
    if (!question) dropped.push({ entry, why: 'question-gone' })
    else if (takes(question, entry)) kept.push(entry)
    else dropped.push({ entry, why: 'answer-gone' })
  }
  return { kept, dropped }
}

function takes(question: Question, { answer, weighIns }: LogEntry): boolean {
  if (weighIns && question.kind !== 'weights') return false
  switch (answer.kind) {
    case 'cannot-tell':
      return question.cannotTell
    case 'cannot-measure':
      // Weigh-ins come with this answer too: the weights then say what it does not.
      return question.cannotMeasure || (question.kind === 'weights' && weighIns !== undefined)
    case 'choice':
      return question.kind !== 'several' && question.options.includes(answer.choice)
    case 'several':
      return (
        question.kind === 'several' &&
        (answer.rest === 'no' || question.cannotTell) &&
        answer.chosen.every(option => question.options.includes(option))
      )
    case 'amount': {
      const { range } = question
      return (
        question.kind === 'amount' && (!range || (answer.amount >= range.from && answer.amount <= range.to))
      )
    }
    case 'since':
      return question.kind === 'since'
  }
}
