/**
 * The weight chart: readings as dots, the fitted line with its limits, events as numbered marks, the reference weight
 * and lines under it. It draws at the width it has, so letters keep their size. A slider under it walks along the
 * readings, by thumb and by arrow keys, and a line of text says where it stands.
 */
import type { VNode } from 'preact'
import { useEffect, useId, useRef, useState } from 'preact/hooks'
import type { Moment } from '../../../../shared/moment.ts'
import type { Reading } from '../../../measure/series.ts'
import { Afterwards } from '../parts.tsx'
import { dayWords, eventNames, numberWords } from '../words.ts'
import { ChartTable } from './ChartTable.tsx'
import { againstReferencePercent, type ChartData, type ChartPoint } from './chart-data.ts'
import { drawnReadings } from './dots.ts'
import { dateTicks, gramTicks } from './ticks.ts'

export interface WeightChartProps {
  readonly data: ChartData
  readonly now: Moment
  readonly locale: string
  /** Days that the reference weight was looked for in; from content. */
  readonly referenceDays: number
  /** What is said of an event beyond its name: how much of a step it explains. */
  readonly ofEvent?: (at: string) => string | undefined
}

const LINE = 22
const LEFT = 38
const RIGHT = 68
const TOP = 30
const DOT = 4.5
const UNDER = 34

/** The width that the last chart had: the next one is most likely as wide, and need not be drawn twice. */
let lastWidth = 340

/** The width a thing has on the page, in pixels. */
function useWidth() {
  const place = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(lastWidth)
  useEffect(() => {
    const here = place.current
    if (here === null || typeof ResizeObserver === 'undefined') return undefined
    const watch = new ResizeObserver(([entry]) => {
      const seen = Math.round(entry?.contentRect.width ?? 0)
      if (seen <= 0) return
      lastWidth = seen
      setWidth(seen)
    })
    watch.observe(here)
    return () => watch.disconnect()
  }, [])
  return { place, width }
}

/** Pushes heights apart so that a line of text fits between neighbours, and none leaves the picture. */
export function spreadApart(heights: readonly number[], least: number, bottom: number): number[] {
  const spread: number[] = []
  for (const height of heights) spread.push(Math.max(height, (spread.at(-1) ?? -Infinity) + least))
  for (let at = spread.length - 1, limit = bottom; at >= 0; at--, limit -= least)
    spread[at] = Math.min(spread[at] ?? limit, limit)
  return spread
}

export function WeightChart(props: WeightChartProps): VNode {
  const { data, now, locale } = props
  const { readings } = data
  const { place, width } = useWidth()
  const [chosen, setChosen] = useState(readings.length - 1)
  const at = Math.min(chosen, readings.length - 1)
  const { grams, percent } = numberWords(locale)
  const say = ({ at: instant, massGrams, outlier }: Reading): string => {
    const change = againstReferencePercent(massGrams, data.referenceGrams)
    return [
      `${dayWords(instant, now.zone, locale)}: ${grams(massGrams)}`,
      change === undefined ? '' : `, ${percent(change, true)} against the best`,
      outlier ? ', marked as an odd one' : '',
    ].join('')
  }
  const reading = readings[at]
  const words = reading ? say(reading) : ''
  return (
    <figure class="weight-chart" ref={place}>
      <Picture {...props} width={width} chosen={reading} />
      <Afterwards>
        {() => (
          <>
            <label class="chart-walk">
              <span class="spoken-only">Walk along the weights</span>
              <input
                type="range"
                min={0}
                max={readings.length - 1}
                value={at}
                aria-valuetext={words}
                onInput={event => setChosen(Number(event.currentTarget.value))}
              />
            </label>
            <p class="chart-said" aria-hidden="true">
              {words}
            </p>
            <Legend {...props} />
            <ChartTable data={data} now={now} locale={locale} />
          </>
        )}
      </Afterwards>
    </figure>
  )
}

function Picture(props: WeightChartProps & { width: number; chosen: Reading | undefined }): VNode {
  const { data, width, now, locale, chosen } = props
  const { fromMs, toMs, fit, band } = data
  const height = Math.round(Math.min(360, 210 + width * 0.16))
  const right = width - RIGHT
  const bottom = height - UNDER
  const all = [
    ...data.readings.map(({ massGrams }) => massGrams),
    ...data.lossLines.map(({ massGrams }) => massGrams),
    ...(data.referenceGrams === undefined ? [] : [data.referenceGrams]),
    ...(fit?.line ?? []).map(({ massGrams }) => massGrams),
  ]
  // A little air, and never so close that one step of the scale looks like a fall.
  const least = Math.min(...all)
  const most = Math.max(...all)
  const air = Math.max((most - least) * 0.06, most * 0.02)
  const low = Math.max(0, least - air)
  const high = most + air
  const x = (ms: number) => Math.round(10 * (LEFT + ((ms - fromMs) / (toMs - fromMs)) * (right - LEFT))) / 10
  const y = (massGrams: number) =>
    Math.round(10 * (bottom - ((massGrams - low) / (high - low)) * (bottom - TOP))) / 10
  const path = (points: readonly ChartPoint[]) =>
    points.map(({ ms, massGrams }, n) => `${n ? 'L' : 'M'}${x(ms)} ${y(massGrams)}`).join('')
  const area = (one: readonly ChartPoint[], other: readonly ChartPoint[]) =>
    `${path([...one, ...[...other].reverse()])}Z`
  // So many that they touch are drawn small, and ten years of days only as far as they can be told apart.
  const isCrowded = data.readings.length > (right - LEFT) / 3
  const drawn = drawnReadings(data.readings, ms => Math.round(x(ms)))
  const spot = ({ atMilliseconds, massGrams }: Reading) => `${x(atMilliseconds)} ${y(massGrams)}`
  const dots = drawn.dots.map(one => (isCrowded ? `M${spot(one)}h0` : circle(spot(one), DOT)))
  const odd = drawn.odd.map(one => oddMark(spot(one)))
  const ends = [
    ...(data.referenceGrams === undefined ? [] : [{ massGrams: data.referenceGrams, words: 'best' }]),
    ...data.lossLines.map(({ percent, massGrams }) => ({ massGrams, words: `\u2212${percent} %` })),
  ]
  const endHeights = spreadApart(
    ends.map(({ massGrams }) => y(massGrams)),
    LINE - 3,
    bottom,
  )
  const marks = marksOf(data, x)
  const presentX = x(Math.max(fromMs, data.presentMs))
  const inside = useId()
  return (
    <svg
      class="chart"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
      focusable="false"
    >
      <clipPath id={inside}>
        <path d={`M${LEFT} ${TOP - 6}H${right}V${bottom}H${LEFT}Z`} />
      </clipPath>
      {band.length === 0 ? null : (
        <path
          class="chart-band"
          clip-path={`url(#${inside})`}
          d={area(
            band.map(({ ms, lowGrams }) => ({ ms, massGrams: lowGrams })),
            band.map(({ ms, highGrams }) => ({ ms, massGrams: highGrams })),
          )}
        />
      )}
      <text x={LEFT - 8} y={TOP - 12} text-anchor="end">
        g
      </text>
      {gramTicks(low, high, Math.floor((bottom - TOP) / 40)).map(({ value, label }) => (
        <g key={value}>
          <path class="chart-grid" d={`M${LEFT} ${y(value)}H${right}`} />
          <text x={LEFT - 8} y={y(value) + 6} text-anchor="end">
            {label}
          </text>
        </g>
      ))}
      <path class="chart-axis" d={`M${LEFT} ${TOP - 6}V${bottom}H${right}`} />
      {dateTicks(fromMs, toMs, Math.max(2, (right - LEFT) / 58), now.zone, locale).map(({ value, label }) => (
        <g key={value}>
          <path class="chart-axis" d={`M${x(value)} ${bottom}v6`} />
          <text x={x(value)} y={bottom + 26} text-anchor="middle">
            {label}
          </text>
        </g>
      ))}
      {ends.map(({ massGrams, words }, n) => (
        <g key={words}>
          <path
            class={n === 0 ? 'chart-best' : 'chart-loss'}
            d={`M${presentX} ${y(massGrams)}H${right}L${right + 6} ${endHeights[n] ?? 0}`}
          />
          <text x={right + 11} y={(endHeights[n] ?? 0) + 6}>
            {words}
          </text>
        </g>
      ))}
      {fit?.limits === undefined ? null : (
        <path class="chart-limits" clip-path={`url(#${inside})`} d={area(...fit.limits)} />
      )}
      {fit === undefined ? null : <path class="chart-fit" d={path(fit.line)} />}
      {marks.map(({ left, words }) => (
        <g key={left}>
          <path class="chart-event" d={`M${left} ${TOP - 4}V${bottom}`} />
          <text class="chart-mark" x={left} y={TOP - 10} text-anchor="middle">
            {words}
          </text>
        </g>
      ))}
      <path class={isCrowded ? 'chart-dots chart-crowded' : 'chart-dots'} d={dots.join('')} />
      <path class="chart-odd" d={odd.join('')} />
      {chosen === undefined ? null : (
        <path
          class="chart-chosen"
          d={circle(`${x(chosen.atMilliseconds)} ${y(chosen.massGrams)}`, DOT + 4)}
        />
      )}
    </svg>
  )
}

/** A cross in a ring. */
const oddMark = (middle: string) => `M${middle}m-3-3l6 6m0-6l-6 6${circle(middle, DOT + 2)}`

const circle = (middle: string, radius: number) =>
  `M${middle}m${-radius} 0a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`

/** Events by number; those too close to be told apart share a mark. */
function marksOf({ events }: ChartData, x: (ms: number) => number): { left: number; words: string }[] {
  const marks: { left: number; first: number; last: number }[] = []
  for (const [at, { ms }] of events.entries()) {
    const mark = marks.at(-1)
    if (mark !== undefined && x(ms) - mark.left < LINE) mark.last = at + 1
    else marks.push({ left: x(ms), first: at + 1, last: at + 1 })
  }
  return marks.map(({ left, first, last }) => ({
    left,
    words: first === last ? `${first}` : `${first}\u2013${last}`,
  }))
}

function Legend({ data, now, locale, referenceDays, ofEvent }: WeightChartProps): VNode {
  const { grams } = numberWords(locale)
  const row = (kind: string, d: string, words: string) => (
    <li>
      <svg class="chart-key" viewBox="0 0 28 20" width="28" height="20" aria-hidden="true" focusable="false">
        <path class={kind} d={d} />
      </svg>
      <span>{words}</span>
    </li>
  )
  return (
    <figcaption>
      <ul class="chart-legend">
        {row('chart-dots', circle('14 10', DOT), 'One day’s weight')}
        {data.readings.some(({ outlier }) => outlier)
          ? row('chart-odd', oddMark('14 10'), 'An odd one: shown, not counted')
          : null}
        {data.referenceGrams === undefined
          ? null
          : row(
              'chart-best',
              'M0 10H28',
              `Best: ${grams(data.referenceGrams)}, its best weight in ${referenceDays} days. Below it, lines for how much is lost.`,
            )}
        {data.fit === undefined
          ? null
          : row(
              'chart-fit',
              'M0 13L28 7',
              data.fit.limits === undefined
                ? 'Which way it goes'
                : 'Which way it goes, and how far that may be off',
            )}
        {data.band.length === 0
          ? null
          : row('chart-band', 'M0 2H28V18H0Z', 'What young ones weighed in print. It is no pass mark.')}
      </ul>
      {data.events.length === 0 ? null : (
        <ol class="chart-events">
          {data.events.map(({ at, kind }) => {
            const more = ofEvent?.(at)
            return (
              <li key={`${at} ${kind}`}>
                {dayWords(at, now.zone, locale)}: {eventNames[kind]}
                {more === undefined ? '' : `. ${more}`}
              </li>
            )
          })}
        </ol>
      )}
    </figcaption>
  )
}
