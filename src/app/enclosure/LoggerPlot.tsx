/** A logger's readings over time: a line of thinned points, the range of the day behind it, nights shaded. */
import type { VNode } from 'preact'
import type { LoggerPolicy } from '../../../shared/enclosure.ts'
import type { Measured } from '../../enclosure/logger/summary.ts'
import { dateTicks, gramTicks } from '../record/chart/ticks.ts'
import { numbersFor, rangeWords, unitName } from './words.ts'

const WIDTH = 328
const HEIGHT = 220
const LEFT = 36
const TOP = 10
const UNDER = 30
const DAY_MS = 86_400_000
const HOUR_MS = 3_600_000
/** Over more days than this a night is narrower than the line. */
const MOST_NIGHTS = 14
const MOST_TICKS = 5

export interface LoggerPlotProps {
  readonly title: string
  readonly unit: string
  readonly measured: Measured
  readonly policy: LoggerPolicy
  readonly locale: string
}

/** The nights of a span as pairs of milliseconds on the clock on the wall. */
export function nightsIn(
  fromMs: number,
  toMs: number,
  { dayFromHour, dayToHour }: Pick<LoggerPolicy, 'dayFromHour' | 'dayToHour'>,
): readonly (readonly [from: number, to: number])[] {
  const nights: (readonly [number, number])[] = []
  for (let day = Math.floor(fromMs / DAY_MS) - 1; day * DAY_MS <= toMs; day += 1) {
    const from = Math.max(fromMs, day * DAY_MS + dayToHour * HOUR_MS)
    const to = Math.min(toMs, (day + 1) * DAY_MS + dayFromHour * HOUR_MS)
    if (from < to) nights.push([from, to])
  }
  return nights
}

export function LoggerPlot({ title, unit, measured, policy, locale }: LoggerPlotProps): VNode | null {
  const { plot, day, night } = measured
  const [first, last] = [plot[0], plot.at(-1)]
  if (!first || !last || last.at <= first.at) return null
  const numbers = numbersFor(locale, {})
  const ends = [day?.range, night?.range]
    .flatMap(range => [range?.low, range?.high])
    .filter(one => one !== undefined)
  const values = [...plot.map(({ value }) => value), ...ends]
  const [least, most] = [Math.min(...values), Math.max(...values)]
  const air = Math.max((most - least) * 0.06, 0.5)
  const [low, high] = [least - air, most + air]
  const [right, bottom] = [WIDTH - 6, HEIGHT - UNDER]
  const round = (value: number) => Math.round(value * 10) / 10
  const x = (ms: number) => round(LEFT + ((ms - first.at) / (last.at - first.at)) * (right - LEFT))
  const y = (value: number) => round(bottom - ((value - low) / (high - low)) * (bottom - TOP))
  const path = plot.map(({ at, value }, n) => `${n ? 'L' : 'M'}${x(at)} ${y(value)}`).join('')
  const showsNights = last.at - first.at <= MOST_NIGHTS * DAY_MS
  const nights = showsNights ? nightsIn(first.at, last.at, policy) : []
  const range = day?.range
  const hasRange = range !== undefined && (range.low !== undefined || range.high !== undefined)
  // Where night and day have one range, the band says it.
  const nightLow = night?.range.low === day?.range.low ? undefined : night?.range.low
  const words = [
    `${title} over time.`,
    ...(hasRange ? [`The band is the range by day: ${rangeWords(range, unit, numbers)}.`] : []),
    ...(nightLow === undefined
      ? []
      : [`The broken line is the least at night: ${numbers.of(nightLow, unit)}.`]),
    showsNights ? 'Nights are shaded.' : 'Over so many days nights are not shaded.',
  ]
  return (
    <figure class="weight-chart">
      <svg class="chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words.join(' ')}>
        {nights.map(([from, to]) => (
          <rect
            key={from}
            class="enclosure-night"
            x={x(from)}
            y={TOP}
            width={round(x(to) - x(from))}
            height={bottom - TOP}
          />
        ))}
        {hasRange ? (
          <rect
            class="enclosure-band"
            x={LEFT}
            y={y(range.high ?? high)}
            width={right - LEFT}
            height={round(y(range.low ?? low) - y(range.high ?? high))}
          />
        ) : null}
        {gramTicks(low, high, MOST_TICKS).map(({ value, label }) => (
          <g key={value}>
            <line class="chart-grid" x1={LEFT} x2={right} y1={y(value)} y2={y(value)} />
            <text x={LEFT - 6} y={y(value) + 5} text-anchor="end">
              {label}
            </text>
          </g>
        ))}
        {dateTicks(first.at, last.at, MOST_TICKS, 'UTC', locale).map(({ value, label }) => (
          <text
            key={value}
            x={Math.min(Math.max(x(value), LEFT + 14), right - 18)}
            y={HEIGHT - 8}
            text-anchor="middle"
          >
            {label}
          </text>
        ))}
        {nightLow === undefined ? null : (
          <line class="enclosure-night-low" x1={LEFT} x2={right} y1={y(nightLow)} y2={y(nightLow)} />
        )}
        <path class="enclosure-line" d={path} />
      </svg>
      <figcaption class="question-hint">
        {words.slice(1).join(' ')} In {unitName(unit)}.
      </figcaption>
    </figure>
  )
}
