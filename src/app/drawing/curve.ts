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

/** Two decimals are a fortieth of a screen pixel at the sizes drawn here. */
export function decimal(value: number): string {
  const rounded = Math.round(value * 100) / 100
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
  const at = (index: number): Point => points[Math.min(last, Math.max(0, index))] ?? { x: 0, y: 0 }
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

/** A leaf: two arcs that meet in a point at either end of an axis along `angle`. */
export function leafPath(
  centre: Point,
  half: number,
  bulge: readonly [number, number],
  angle: number,
): string {
  const front = offset(centre, angle, -half, 0)
  const back = offset(centre, angle, half, 0)
  const [one, two] = bulge.map(right => pointText(offset(centre, angle, 0, right)))
  return `M${pointText(front)}Q${one} ${pointText(back)}Q${two} ${pointText(front)}Z`
}

/** One arc of such a leaf. */
export function arcPath(centre: Point, half: number, bulge: number, angle: number): string {
  const front = pointText(offset(centre, angle, -half, 0))
  const back = pointText(offset(centre, angle, half, 0))
  return `M${front}Q${pointText(offset(centre, angle, 0, bulge))} ${back}`
}

/** An ellipse whose long axis points along `angle` (0 = down the page). */
export function ellipsePath(centre: Point, along: number, across: number, angle: number): string {
  const turned = decimal((-angle * 180) / Math.PI)
  const arc = `A${decimal(across)} ${decimal(along)} ${turned} 0 1 `
  const front = pointText(offset(centre, angle, -along, 0))
  return `M${front}${arc}${pointText(offset(centre, angle, along, 0))}${arc}${front}Z`
}

/** The point reached by going `forward` along `angle` (0 = down the page) and `right` across it. */
export function offset(from: Point, angle: number, forward: number, right: number): Point {
  return {
    x: from.x + forward * Math.sin(angle) + right * Math.cos(angle),
    y: from.y + forward * Math.cos(angle) - right * Math.sin(angle),
  }
}

/** A limb: a smooth band along `line`, as wide as `halfWidths` say at each point, with a round end.
 * `steps` is how many pieces each part of the line is cut into. */
export function ribbonPoints(line: readonly Point[], halfWidths: readonly number[], steps = 5): Point[] {
  const last = line.length - 1
  const at = (index: number): Point => line[Math.min(last, Math.max(0, index))] ?? { x: 0, y: 0 }
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
  // On the inner side of a bend tighter than the band is wide the edge would fold over itself.
  const clear = (point: Point): boolean =>
    centres.every((centre, index) => {
      const distance = Math.hypot(point.x - centre.x, point.y - centre.y)
      return distance >= (halves[index] ?? 0) * 0.97
    })
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
      cap.push(offset(end, angle, half * Math.cos(turn * Math.PI), half * Math.sin(turn * Math.PI)))
    }
  }
  return [...left.filter(clear), ...cap, ...right.reverse().filter(clear)]
}

function between4(before: Point, from: Point, to: Point, after: Point, t: number): Point {
  const one = (p: number, a: number, b: number, n: number): number =>
    0.5 * (2 * a + (b - p) * t + (2 * p - 5 * a + 4 * b - n) * t * t + (3 * a - p - 3 * b + n) * t * t * t)
  return { x: one(before.x, from.x, to.x, after.x), y: one(before.y, from.y, to.y, after.y) }
}
