/**
 * The time circle: the latest time to be seen, in words, with a dial beside it for those who take
 * in a shape faster. The words carry everything; the dial is hidden from screen readers.
 */
import type { VNode } from 'preact'
import { timeArc } from '../drawing/timeArc.ts'

export interface TimeCircleProps {
  /** What the time is for: "Be seen". */
  readonly lead: string
  /** A day and a part of it, never minutes: "by Thursday evening". */
  readonly day: string
  /** "Sooner is better." */
  readonly note: string
  /** How much of the dial the time takes up, 0 to 1. */
  readonly fraction: number
  /** Places on the rim, 0 to 1, where a new day begins. */
  readonly dayStarts?: readonly number[]
}

export function TimeCircle(props: TimeCircleProps): VNode {
  const arc = timeArc(props.fraction, props.dayStarts)
  return (
    <div class="time-circle">
      <svg
        class="time-circle-dial"
        viewBox={arc.viewBox}
        width="108"
        height="108"
        aria-hidden="true"
        focusable="false"
      >
        <circle class="dial-rim" r={arc.radius} />
        <path class="dial-day" d={arc.days} />
        <path class="dial-arc" d={arc.band} />
        <path class="dial-end" d={arc.end} />
        <circle class="dial-now" cx={arc.now.x} cy={arc.now.y} r="6" />
      </svg>
      <p class="time-circle-words">
        <span class="time-circle-lead">{props.lead} </span>
        <strong class="time-circle-day">{props.day}. </strong>
        <span class="time-circle-note">{props.note}</span>
      </p>
    </div>
  )
}
