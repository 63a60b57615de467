import type { LoggerAnswers } from '../../../shared/enclosure-input.ts'
import type { Result } from '../../../shared/result.ts'
import { type LoggerKnowledge, type LoggerOutcome, loggerIntake } from '../../enclosure/logger.ts'
import { readDates } from '../../records/csv/date-column.ts'
import { readTime } from '../../records/csv/dates.ts'
import { type GivenFile, readText } from '../../records/file-text.ts'

/** What a logger's file comes to, as a value: a summary, a question that the file leaves open, or its faults. */
export async function loggerOutcome(
  file: GivenFile,
  knowledge: LoggerKnowledge,
  answers: LoggerAnswers,
): Promise<Result<LoggerOutcome>> {
  const text = await readText(file, { orWindows: true })
  if (!text.ok) return text
  const intake = loggerIntake(knowledge, { readDates, readTime }, answers)
  intake.push(text.value)
  return intake.end()
}
