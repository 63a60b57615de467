import { EMPTY_CASE_FILE } from '../../shared/answers.ts'
import type { CaseFile } from '../../shared/case-file.ts'
import type { DangerPart } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { type DangerLine, dangerLine, lineAfter } from '../wizard/danger-line.ts'
import { caseFileOf, type LogEntry } from '../wizard/log.ts'
import type { WizardContext, WizardEvent } from '../wizard/machine.ts'

export type Place =
  | { readonly at: 'start' }
  | { readonly at: 'outcome' }
  | { readonly at: 'question'; readonly question: string }
  /** The chart has to go on and is not there yet; `isNow` where a danger sign at `now` was told already. */
  | { readonly at: 'awaited'; readonly isNow: boolean }

/** A case under way, whatever runs it: where it stands, and what comes of an event. */
export interface Run {
  /** The chart, or the danger screens alone, which know no event but the start, an answer and Back. */
  readonly by: 'chart' | 'line'
  readonly place: Place
  readonly context: Pick<WizardContext, 'log' | 'caseFile' | 'now' | 'draft' | 'skipped'>
  readonly after: (...events: readonly WizardEvent[]) => Run
}

/** What runs a case once the chart is there (src/app/chart-run.ts). */
export interface Engine {
  /** A case with this log, begun on what the record knows: at the first question that still matters, or at the one that is wanted. */
  readonly open: (log: readonly LogEntry[], now: Moment, question?: string, base?: CaseFile) => Run
  /** Whether a question is asked for the vet's page. */
  readonly isForVet: (question: string | undefined) => boolean
  /** Whether a question is answered on the outcome itself. */
  readonly isCare: (question: string | undefined) => boolean
}

/** A case on the danger screens alone, before the chart is there. */
export function lineRun(part: DangerPart, log: readonly LogEntry[], now: Moment): Run {
  const run = (line: DangerLine, isBegun: boolean): Run => ({
    by: 'line',
    place: line.screen
      ? { at: 'question', question: line.screen.id }
      : isBegun
        ? { at: 'awaited', isNow: line.ended }
        : { at: 'start' },
    context: {
      log: line.log,
      caseFile: caseFileOf(EMPTY_CASE_FILE, line.log),
      now: line.now,
      draft: line.draft,
      skipped: [],
    },
    after: (...events) =>
      run(
        events.reduce(
          (before, event) =>
            event.type === 'START' || event.type === 'ANSWER' || event.type === 'BACK'
              ? lineAfter(part, before, event)
              : before,
          line,
        ),
        true,
      ),
  })
  return run(dangerLine(log, now), false)
}
