/**
 * The time circle: the latest time to be seen, in words, with a dial beside it for those who take
 * in a shape faster. The words carry everything; the dial is hidden from screen readers.
 */
import type { VNode } from 'preact'
import { timeArc } from '../drawing/timeArc.ts'
import type { DialMark } from '../wording/dates.ts'

export interface TimeCircleProps {
  /** What the time is for: "Be seen". */
  readonly lead: string
  /** A day, its part and the hour: "by Thursday evening, 20:00". */
  readonly day: string
  /** "Sooner is better." */
  readonly note: string
  /** How much of the dial the time takes up, 0 to 1. */
  readonly fraction: number
  /** Places on the rim with the hours or days that stand there. */
  readonly marks: readonly DialMark[]
  /** What once round is: "Once round is 3 days from now." */
  readonly legend: string
}

export function TimeCircle(props: TimeCircleProps): VNode {
  const arc = timeArc(
    props.fraction,
    props.marks.map(({ at }) => at),
  )
  return (
    <div class="time-circle">
      <svg
        class="time-circle-dial"
        viewBox={arc.viewBox}
        width="132"
        height="132"
        aria-hidden="true"
        focusable="false"
      >
        <circle class="dial-rim" r={arc.radius} />
        <path class="dial-day" d={arc.strokes} />
        <path class="dial-arc" d={arc.band} />
        <path class="dial-end" d={arc.end} />
        <circle class="dial-now" cx={arc.now.x} cy={arc.now.y} r="6" />
        {props.marks.map(({ at, number }, place) => (
          <text key={at} class="dial-number" x={arc.numbers[place]?.x} y={arc.numbers[place]?.y} dy="0.35em">
            {number}
          </text>
        ))}
      </svg>
      <p class="time-circle-words">
        <span class="time-circle-lead">{props.lead} </span>
        <strong class="time-circle-day">{props.day}. </strong>
        <span class="time-circle-note">{props.note} </span>
        <span class="time-circle-note">{props.legend}</span>
      </p>
    </div>
  )
}
