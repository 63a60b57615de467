/** Reads a logger's file beside the page, so that the page goes on answering. */
import { loggerOutcome } from './logger-outcome.ts'
import type { LoggerJob } from './read-logger.ts'

globalThis.onmessage = ({ data }: MessageEvent<LoggerJob>) =>
  void loggerOutcome(data.file, data.knowledge, data.answers).then(outcome => globalThis.postMessage(outcome))
