import type { LoggerAnswers } from '../../../shared/enclosure-input.ts'
import { failure, type Result } from '../../../shared/result.ts'
import type { LoggerKnowledge, LoggerOutcome } from '../../enclosure/logger.ts'

/** What a logger's file comes to, with what was answered about it. */
export type ReadLogger = (
  file: File,
  knowledge: LoggerKnowledge,
  answers: LoggerAnswers,
) => Promise<Result<LoggerOutcome>>

/** What the worker is sent. */
export interface LoggerJob {
  readonly file: File
  readonly knowledge: LoggerKnowledge
  readonly answers: LoggerAnswers
}

/** Reads the file in a worker: a year of readings takes longer than a page may stand still. */
export const readInWorker: ReadLogger = (file, { quantities, logger }, answers) =>
  new Promise(resolve => {
    const worker = new Worker(new URL('./logger-worker.ts', import.meta.url), { type: 'module' })
    const done = (outcome: Result<LoggerOutcome>) => {
      worker.terminate()
      resolve(outcome)
    }
    worker.onmessage = ({ data }: MessageEvent<Result<LoggerOutcome>>) => done(data)
    worker.onerror = () =>
      done(failure([{ field: 'file', value: file.name, accepted: 'a file that this browser can read' }]))
    const job: LoggerJob = { file, knowledge: { quantities, logger }, answers }
    worker.postMessage(job)
  })
