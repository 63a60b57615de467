/** Weights over time in black on white; the numbers stand beside it, so it may be a picture. */
import type { VNode } from 'preact'
import type { WeighIn } from '../../../shared/case-file.ts'

const WIDTH = 600
const HEIGHT = 120
const EDGE = 6

export function WeightLine(props: {
  readonly weighIns: readonly WeighIn[]
  readonly day: (instant: string) => string
}): VNode {
  const { weighIns, day } = props
  const times = weighIns.map(({ at }) => Date.parse(at))
  const masses = weighIns.map(({ massGrams }) => massGrams)
  const [first, last] = [Math.min(...times), Math.max(...times)]
  const [least, most] = [Math.min(...masses), Math.max(...masses)]
  const along = (value: number, from: number, to: number, length: number) =>
    to === from ? length / 2 : ((value - from) / (to - from)) * length
  const points = weighIns.map(({ massGrams }, at) => {
    const x = EDGE + along(times[at] ?? first, first, last, WIDTH - 2 * EDGE)
    const y = HEIGHT - EDGE - along(massGrams, least, most, HEIGHT - 2 * EDGE)
    return `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`
  })
  const from = weighIns[0]?.at ?? ''
  const to = weighIns.at(-1)?.at ?? ''
  return (
    <figure class="weight-line">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${weighIns.length} weights over time`}>
        <rect class="weight-line-frame" x="0.5" y="0.5" width={WIDTH - 1} height={HEIGHT - 1} />
        <polyline class="weight-line-path" points={points.join(' ')} />
        {points.slice(-LATEST).map(point => {
          const [x, y] = point.split(',')
          return <circle key={point} class="weight-line-dot" cx={x} cy={y} r="3" />
        })}
      </svg>
      <figcaption>
        {weighIns.length} weights from {day(from)} to {day(to)}; lowest {least} g, highest {most} g.
      </figcaption>
    </figure>
  )
}

const LATEST = 6
