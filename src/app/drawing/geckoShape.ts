/**
 * The numbers of an ordinary grown animal in millimetres: where its spine heads, how wide it is at each place, and
 * how its limbs stand.
 */
import type { Station } from './curve.ts'

export interface GeckoShape {
  /** The widest place of the tail divided by the width of the neck: 1 is "as wide as the neck". */
  readonly tailWidth: number
  /** How full the trunk is, from -1 (narrow, hips stand out) over 0 to 1 (broad). */
  readonly condition: number
}

export type GeckoPose = 'resting' | 'straight'

export interface ViewBox {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export const ordinaryGecko: GeckoShape = {
  tailWidth: 1.45,
  condition: 0,
}

const neckAt = 36
export const neckHalf = 7.9
export const ventAt = 117
export const wholeTailEnd = 206

/** Where the spine heads at each place: 0 is down the page, positive towards the right. */
export const headings: Readonly<Record<GeckoPose, readonly Station[]>> = {
  straight: [{ at: 0, value: 0 }],
  resting: [
    { at: 0, value: 0.34 },
    { at: 30, value: 0.28 },
    { at: 60, value: -0.06 },
    { at: 88, value: -0.14 },
    { at: 114, value: 0.02 },
    { at: 136, value: 0.62 },
    { at: 165, value: 1.62 },
    { at: wholeTailEnd, value: 3.25 },
  ],
}

export const views: Readonly<Record<GeckoPose, ViewBox>> = {
  straight: { x: -42, y: -4, width: 84, height: 214 },
  resting: { x: -43, y: -4, width: 102, height: 166 },
}

interface Limb {
  readonly name: 'front-left' | 'front-right' | 'hind-left' | 'hind-right'
  readonly rootAt: number
  /** Each joint as [towards the tail, away from the spine]. */
  readonly joints: readonly (readonly [number, number])[]
  readonly halfWidths: readonly number[]
  /** Where the foot points: 0 straight ahead, positive away from the spine. */
  readonly footTurn: number
  readonly toes: readonly (readonly [turn: number, length: number])[]
}

const frontToes = [
  [-1.3, 6.6],
  [-0.64, 8.8],
  [0, 9.6],
  [0.64, 9],
  [1.3, 6.8],
] as const
const hindToes = [
  [-1.2, 6.8],
  [-0.6, 9],
  [0, 10.4],
  [0.6, 10],
  [1.3, 7.4],
] as const

export function limbs(pose: GeckoPose): Limb[] {
  const front: Limb['joints'] = [
    [-1, 1],
    [4, 15],
    [3, 22],
    [-7, 27],
  ]
  const frontReaching: Limb['joints'] = [
    [2, 1],
    [0, 15],
    [-6, 21],
    [-17, 24],
  ]
  const hind: Limb['joints'] = [
    [2, 0],
    [-7, 14],
    [-7, 21],
    [4, 27],
  ]
  const hindTrailing: Limb['joints'] = [
    [-2, 0],
    [-3, 15],
    [1, 21],
    [12, 25],
  ]
  const frontHalf = [8.4, 4.9, 4, 2.9]
  const hindHalf = [8.6, 6.9, 5.2, 3.2]
  const lively = pose === 'resting'
  return [
    {
      name: 'front-left',
      rootAt: 49,
      joints: front,
      halfWidths: frontHalf,
      footTurn: 0.5,
      toes: frontToes,
    },
    {
      name: 'front-right',
      rootAt: 49,
      joints: lively ? frontReaching : front,
      halfWidths: frontHalf,
      footTurn: lively ? 0.25 : 0.5,
      toes: frontToes,
    },
    {
      name: 'hind-left',
      rootAt: 107,
      joints: lively ? hindTrailing : hind,
      halfWidths: hindHalf,
      footTurn: lively ? 1.2 : 1,
      toes: hindToes,
    },
    {
      name: 'hind-right',
      rootAt: 107,
      joints: hind,
      halfWidths: hindHalf,
      footTurn: 1,
      toes: hindToes,
    },
  ]
}

/** Half-widths of the whole animal for one shape, from snout to tip. */
export function halfWidthStations(shape: GeckoShape): Station[] {
  const fullness = Math.min(1, Math.max(-1, shape.condition))
  const trunk = 1 + 0.2 * fullness
  const loin = 1 + 0.3 * fullness
  const tail = Math.max(0.2, shape.tailWidth) * neckHalf
  const front: Station[] = [
    { at: 0, value: 0 },
    { at: 0.5, value: 2.4 },
    { at: 1.8, value: 4.4 },
    { at: 3.8, value: 6 },
    { at: 8.5, value: 8.7 },
    { at: 12, value: 10.9 },
    { at: 16, value: 13.1 },
    { at: 20.5, value: 14.1 },
    { at: 24.5, value: 14.2 },
    { at: 29.5, value: 11.9 },
    { at: neckAt, value: neckHalf },
    { at: 42, value: 9 },
    { at: 52, value: 12.2 * (1 + 0.08 * fullness) },
    { at: 64, value: 14.4 * trunk },
    { at: 77, value: 15.6 * trunk },
    { at: 91, value: 14 * loin },
    { at: 102, value: 11.2 * (1 + 0.16 * fullness) },
    { at: 110, value: 9.4 },
    { at: ventAt, value: 7.7 },
  ]
  return [...front, ...tailStations(tail)]
}

function tailStations(tail: number): Station[] {
  const base = 2.7 + 0.42 * tail
  return [
    { at: 122, value: base },
    { at: 128, value: 0.75 * tail + 0.3 },
    { at: 136, value: 0.94 * tail },
    { at: 146, value: tail },
    { at: 160, value: 0.92 * tail },
    { at: 174, value: 0.68 * tail },
    { at: 187, value: 0.4 * tail },
    { at: 198, value: 0.19 * tail },
    { at: 204, value: 0.1 * tail },
    { at: 205.6, value: 0.05 * tail },
    { at: wholeTailEnd, value: 0 },
  ]
}
