import type { Answer } from '../../shared/case-file.ts'
import type { DangerPart, Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { FALSE, intervalOf, lowOf, noFacts, TRUE, UNSURE } from '../triage/intervals.ts'
import { type LogEntry, withEntry } from './log.ts'
import type { WizardEvent } from './machine.ts'

/**
 * The danger screens before the chart is there: the same screens in the same order, out of the danger part of the
 * protocol alone. Its log is all there is to it; the chart takes it over by replaying it.
 */
export interface DangerLine {
  readonly log: readonly LogEntry[]
  readonly now: Moment
  /** The screen that is shown; none before the start, and where the chart has to go on. */
  readonly screen: Question | undefined
  /** Something is at `now` already. */
  readonly ended: boolean
  /** The answer that stands in the shown screen already. */
  readonly draft: LogEntry | undefined
}

const HOUR_MS = 3_600_000

/** What may happen on the line. */
export type LineEvent = Extract<WizardEvent, { readonly type: 'START' | 'ANSWER' | 'BACK' }>

/** A line at the start, with what the start page has told. */
export function dangerLine(log: readonly LogEntry[], now: Moment): DangerLine {
  return { log, now, screen: undefined, ended: false, draft: undefined }
}

/** The line after an event; an event that has no place on it changes nothing. */
export function lineAfter(part: DangerPart, line: DangerLine, event: LineEvent): DangerLine {
  const { now } = event
  const named = (id: string | undefined) => part.screens.find(screen => screen.id === id)
  switch (event.type) {
    case 'START': {
      const wanted = named(event.question)
      return wanted
        ? { ...line, now, screen: wanted, draft: line.log.find(({ question }) => question === wanted.id) }
        : goneOn(part, line.log, now, -1)
    }
    case 'ANSWER': {
      const { screen } = line
      if (!screen || event.entry.question !== screen.id) return line
      return goneOn(part, withEntry(line.log, event.entry), now, part.screens.indexOf(screen))
    }
    case 'BACK': {
      const draft = line.log.at(-1)
      const screen = named(draft?.question)
      return screen ? { log: line.log.slice(0, -1), now, screen, ended: false, draft } : line
    }
  }
}

/** On to the next open screen after one, else to the first open one; to none where one is at `now`, or none is open. */
function goneOn(part: DangerPart, log: readonly LogEntry[], now: Moment, after: number): DangerLine {
  const answers = part.screens.map(screen => standingAnswer(screen, log, now))
  const ended = isAtNow(part, answers)
  const open = part.screens.filter((_, at) => answers[at] === undefined)
  const next = ended ? undefined : (open.find(screen => part.screens.indexOf(screen) > after) ?? open[0])
  return { log, now, screen: next, ended, draft: undefined }
}

/** The answer to a screen, while it still stands. */
function standingAnswer(screen: Question, log: readonly LogEntry[], now: Moment): Answer | undefined {
  const answer = log.find(({ question }) => question === screen.id)?.answer
  const ageMs = answer ? Date.parse(now.instant) - Date.parse(answer.given) : 0
  return ageMs > screen.staysGoodHours * HOUR_MS ? undefined : answer
}

function isAtNow(part: DangerPart, answers: readonly (Answer | undefined)[]): boolean {
  const states = noFacts(answers.map(() => FALSE))
  answers.forEach((answer, at) => {
    const ticked = answer?.kind === 'several' ? answer.chosen : []
    const options = ticked.reduce(
      (bits, one) => bits | (1 << (part.screens[at]?.options.indexOf(one) ?? 0)),
      0,
    )
    const isUnsure =
      answer?.kind === 'cannot-tell' || (answer?.kind === 'several' && answer.rest === 'cannot-tell')
    // Only what is surely there counts, so both ends are the low one.
    states.lowOptions[at] = states.highOptions[at] = options
    states.lowRest[at] = states.highRest[at] = isUnsure ? UNSURE : FALSE
  })
  return (
    lowOf(intervalOf(part.endsIfTrue, states)) === TRUE ||
    lowOf(intervalOf(part.endsIfUnsure, states)) >= UNSURE
  )
}
