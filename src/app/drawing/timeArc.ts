/**
 * The shape of the time circle: a band round a dial, from now (at the top) clockwise to the latest
 * time. It is thickest now and thins out, because sooner is better. Pure numbers.
 */
import { decimal, type Point, pointText } from './curve.ts'

export interface TimeArc {
  readonly viewBox: string
  readonly radius: number
  /** Closed line of the band; empty for a fraction of 0. */
  readonly band: string
  readonly now: Point
  /** A short stroke across the rim where the time ends. */
  readonly end: string
  /** Short strokes on the rim, one for each place asked for. */
  readonly strokes: string
  /** Where the number of each place stands, outside the rim. */
  readonly numbers: readonly Point[]
}

const radius = 44
const thickest = 15
const thinnest = 4

export function timeArc(fraction: number, places: readonly number[] = []): TimeArc {
  const share = Number.isFinite(fraction) ? Math.min(1, Math.max(0, fraction)) : 0
  const steps = Math.max(2, Math.ceil(share * 48))
  const inner: string[] = []
  for (let step = steps; step >= 0; step -= 1) {
    const part = step / steps
    inner.push(pointText(onDial(share * part, radius - thickest + (thickest - thinnest) * part)))
  }
  // An arc command cannot close on itself, so a full circle is drawn in two halves.
  const half = pointText(onDial(share / 2, radius))
  const size = `${radius} ${radius} 0 0 1`
  const band =
    share === 0
      ? ''
      : `M${pointText(onDial(0, radius))}A${size} ${half}A${size} ${pointText(onDial(share, radius))}L${inner.join('L')}Z`
  return {
    viewBox: '-66 -66 132 132',
    radius,
    band,
    now: onDial(0, radius),
    end: stroke(share, radius - thinnest - 4, radius + 6),
    strokes: places.map(at => stroke(at, radius - 3, radius + 3)).join(''),
    numbers: places.map(at => onDial(at, radius + 12)),
  }
}

function stroke(at: number, from: number, to: number): string {
  return `M${pointText(onDial(at, from))}L${pointText(onDial(at, to))}`
}

function onDial(share: number, distance: number): Point {
  const angle = share * 2 * Math.PI
  return { x: Number(decimal(distance * Math.sin(angle))), y: Number(decimal(-distance * Math.cos(angle))) }
}
