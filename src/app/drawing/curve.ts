/** Plane geometry for the drawings: points in, SVG path text out. Pure, no DOM. */

export interface Point {
  readonly x: number
  readonly y: number
}

/** A value known at some places along a line, in rising order of `at`. */
export interface Station {
  readonly at: number
  readonly value: number
}

/** One decimal is a twentieth of a screen pixel at the sizes drawn here. */
export function decimal(value: number): string {
  const rounded = Math.round(value * 10) / 10
  return String(rounded === 0 ? 0 : rounded)
}

export function pointText(point: Point): string {
  return `${decimal(point.x)} ${decimal(point.y)}`
}

/**
 * Reads a value between stations without overshooting them (monotone cubic, Fritsch and Carlson),
 * so a body never bulges where no station says so.
 */
export function between(stations: readonly Station[], at: number): number {
  const first = stations[0]
  const last = stations[stations.length - 1]
  if (first === undefined || last === undefined) return 0
  if (at <= first.at) return first.value
  if (at >= last.at) return last.value
  let index = 0
  while ((stations[index + 1]?.at ?? Number.POSITIVE_INFINITY) < at) index += 1
  const from = stations[index] ?? first
  const to = stations[index + 1] ?? last
  const span = to.at - from.at
  const rise = (to.value - from.value) / span
  const slopeBefore = tangent(stations, index, rise)
  const slopeAfter = tangent(stations, index + 1, rise)
  const t = (at - from.at) / span
  const t2 = t * t
  const t3 = t2 * t
  return (
    (2 * t3 - 3 * t2 + 1) * from.value +
    (t3 - 2 * t2 + t) * span * slopeBefore +
    (3 * t2 - 2 * t3) * to.value +
    (t3 - t2) * span * slopeAfter
  )
}

function tangent(stations: readonly Station[], index: number, fallback: number): number {
  const before = stations[index - 1]
  const here = stations[index]
  const after = stations[index + 1]
  if (here === undefined) return fallback
  if (before === undefined || after === undefined) return fallback
  const left = (here.value - before.value) / (here.at - before.at)
  const right = (after.value - here.value) / (after.at - here.at)
  if (left * right <= 0) return 0
  return (2 * left * right) / (left + right)
}

/** A smooth closed line through every point (Catmull-Rom written as cubic curves). */
export function closedPath(points: readonly Point[]): string {
  const count = points.length
  const at = (index: number): Point => points[(index + count) % count] ?? { x: 0, y: 0 }
  if (count === 0) return ''
  const parts = [`M${pointText(at(0))}`]
  for (let index = 0; index < count; index += 1) {
    parts.push(cubic(at(index - 1), at(index), at(index + 1), at(index + 2)))
  }
  return `${parts.join('')}Z`
}

/** A smooth open line through every point. */
export function openPath(points: readonly Point[]): string {
  const last = points.length - 1
  const at = (index: number): Point =>
    points[Math.min(last, Math.max(0, index))] ?? { x: 0, y: 0 }
  if (last < 0) return ''
  const parts = [`M${pointText(at(0))}`]
  for (let index = 0; index < last; index += 1) {
    parts.push(cubic(at(index - 1), at(index), at(index + 1), at(index + 2)))
  }
  return parts.join('')
}

function cubic(before: Point, from: Point, to: Point, after: Point): string {
  const one = { x: from.x + (to.x - before.x) / 6, y: from.y + (to.y - before.y) / 6 }
  const two = { x: to.x - (after.x - from.x) / 6, y: to.y - (after.y - from.y) / 6 }
  return `C${pointText(one)} ${pointText(two)} ${pointText(to)}`
}

/** An ellipse whose long axis points along `angle` (0 = down the page). */
export function ellipsePath(centre: Point, along: number, across: number, angle: number): string {
  const points: Point[] = []
  for (let step = 0; step < 8; step += 1) {
    const turn = (step / 8) * 2 * Math.PI
    points.push(offset(centre, angle, along * Math.cos(turn), across * Math.sin(turn)))
  }
  return closedPath(points)
}

/** The point reached by going `forward` along `angle` (0 = down the page) and `right` across it. */
export function offset(from: Point, angle: number, forward: number, right: number): Point {
  return {
    x: from.x + forward * Math.sin(angle) + right * Math.cos(angle),
    y: from.y + forward * Math.cos(angle) - right * Math.sin(angle),
  }
}

/** A limb: a smooth band along `line`, as wide as `halfWidths` say at each point, with a round end. */
export function ribbonPoints(line: readonly Point[], halfWidths: readonly number[]): Point[] {
  const steps = 5
  const last = line.length - 1
  const at = (index: number): Point =>
    line[Math.min(last, Math.max(0, index))] ?? { x: 0, y: 0 }
  const centres: Point[] = []
  const widths: Station[] = halfWidths.map((value, index) => ({ at: index, value }))
  const halves: number[] = []
  for (let index = 0; index < last; index += 1) {
    const upTo = index === last - 1 ? steps : steps - 1
    for (let step = 0; step <= upTo; step += 1) {
      const t = step / steps
      centres.push(between4(at(index - 1), at(index), at(index + 1), at(index + 2), t))
      halves.push(between(widths, index + t))
    }
  }
  const left: Point[] = []
  const right: Point[] = []
  let angle = 0
  centres.forEach((centre, index) => {
    const from = centres[Math.max(0, index - 1)] ?? centre
    const to = centres[Math.min(centres.length - 1, index + 1)] ?? centre
    angle = Math.atan2(to.x - from.x, to.y - from.y)
    const half = halves[index] ?? 0
    left.push(offset(centre, angle, 0, -half))
    right.push(offset(centre, angle, 0, half))
  })
  const end = centres[centres.length - 1]
  const half = halves[halves.length - 1] ?? 0
  const cap: Point[] = []
  if (end !== undefined) {
    for (const turn of [-0.25, 0, 0.25]) {
      cap.push(
        offset(end, angle, half * Math.cos(turn * Math.PI), half * Math.sin(turn * Math.PI)),
      )
    }
  }
  return [...left, ...cap, ...right.reverse()]
}

function between4(before: Point, from: Point, to: Point, after: Point, t: number): Point {
  const one = (p: number, a: number, b: number, n: number): number =>
    0.5 *
    (2 * a + (b - p) * t + (2 * p - 5 * a + 4 * b - n) * t * t + (3 * a - p - 3 * b + n) * t * t * t)
  return { x: one(before.x, from.x, to.x, after.x), y: one(before.y, from.y, to.y, after.y) }
}
