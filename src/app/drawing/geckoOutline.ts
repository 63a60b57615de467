/**
 * One leopard gecko seen from above, made of numbers.
 *
 * The animal is a line (its spine, from the snout at 0 to the tip of the tail) with a half-width at
 * every place along it; limbs and toes are bands of the same kind. The unit is a millimetre of an
 * ordinary grown animal. Nothing here knows what a shape means; it only draws it.
 *
 * The head points up the page, so the animal's left is the viewer's left.
 */
import {
  arcPath,
  between,
  closedPath,
  ellipsePath,
  leafPath,
  offset,
  openPath,
  type Point,
  pointText,
  ribbonPoints,
  type Station,
} from './curve.ts'

export interface GeckoShape {
  /** The widest place of the tail divided by the width of the neck: 1 is "as wide as the neck". */
  readonly tailWidth: number
  /** How full the trunk is, from -1 (narrow, hips stand out) over 0 to 1 (broad). */
  readonly condition: number
  /** A tail that has grown again: shorter, rounder, without bands. */
  readonly regrownTail: boolean
  /** Only a short stump where the tail was. */
  readonly tailLost: boolean
}

export type GeckoPose = 'resting' | 'straight'

/** Every place of the drawing that can be marked. Left and right are the animal's own. */
export const regionNames = [
  'region-head',
  'region-mouth',
  'region-nostrils',
  'region-eye-left',
  'region-eye-right',
  'region-neck',
  'region-back',
  'region-belly',
  'region-vent',
  'region-leg-front-left',
  'region-leg-front-right',
  'region-leg-hind-left',
  'region-leg-hind-right',
  'region-toes-front-left',
  'region-toes-front-right',
  'region-toes-hind-left',
  'region-toes-hind-right',
  'region-tail-base',
  'region-tail',
  'region-tail-tip',
] as const

export type RegionName = (typeof regionNames)[number]

export interface GeckoOutline {
  /** The same for every shape of one pose, so that changing the shape moves nothing on the page. */
  readonly viewBox: {
    readonly x: number
    readonly y: number
    readonly width: number
    readonly height: number
  }
  /** Trunk, head and tail as one closed line. */
  readonly body: string
  /** Four legs and four feet, each closed, to be drawn under the body. */
  readonly limbs: readonly string[]
  /** Closed lines of the places that can be marked. A lost tail has no `region-tail` nor `region-tail-tip`. */
  readonly regions: Readonly<Partial<Record<RegionName, string>>>
  /** Places on the underside, drawn dashed because they cannot be seen from above. */
  readonly underside: readonly string[]
  readonly eyes: readonly string[]
  readonly pupils: readonly string[]
  readonly lines: readonly string[]
  readonly spots: readonly string[]
  readonly bands: readonly string[]
  /** The width of the neck carried down beside the tail, to compare the two. */
  readonly neckGuides: readonly string[]
  /** Half the widest place of the tail and half the neck, in the drawing's unit. */
  readonly halfWidths: { readonly neck: number; readonly tail: number; readonly trunk: number }
}

export const ordinaryGecko: GeckoShape = {
  tailWidth: 1.45,
  condition: 0,
  regrownTail: false,
  tailLost: false,
}

const neckAt = 36
const neckHalf = 7.9
const ventAt = 117
const wholeTailEnd = 206

/** Where the spine heads at each place: 0 is down the page, positive towards the right. */
const headings: Readonly<Record<GeckoPose, readonly Station[]>> = {
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

const views: Readonly<Record<GeckoPose, GeckoOutline['viewBox']>> = {
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

function limbs(pose: GeckoPose): Limb[] {
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
  return [...front, ...tailStations(shape, tail)]
}

function tailStations(shape: GeckoShape, tail: number): Station[] {
  const base = 2.7 + 0.42 * tail
  if (shape.tailLost) {
    return [
      { at: 123, value: 6.6 },
      { at: 127, value: 6 },
      { at: 129.4, value: 4.2 },
      { at: 130.4, value: 2.2 },
      { at: 130.8, value: 0 },
    ]
  }
  if (shape.regrownTail) {
    return [
      { at: 123, value: base },
      { at: 131, value: 0.88 * tail },
      { at: 144, value: tail },
      { at: 155, value: 0.93 * tail },
      { at: 164, value: 0.7 * tail },
      { at: 170, value: 0.42 * tail },
      { at: 172.6, value: 0.2 * tail },
      { at: 173.4, value: 0 },
    ]
  }
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

interface Spine {
  readonly at: (along: number) => Point
  readonly heading: (along: number) => number
}

/** The spine of a pose never changes, so it is walked once, in steps of a millimetre. */
const spines: Partial<Record<GeckoPose, Spine>> = {}

function spineOf(pose: GeckoPose): Spine {
  const known = spines[pose]
  if (known !== undefined) return known
  const turns: number[] = []
  const points: Point[] = []
  let here: Point = { x: pose === 'resting' ? -9 : 0, y: 0 }
  for (let along = 0; along <= wholeTailEnd + 1; along += 1) {
    points.push(here)
    turns.push(between(headings[pose], along))
    here = offset(here, between(headings[pose], along + 0.5), 1, 0)
  }
  const heading = (along: number): number => {
    const index = Math.max(0, Math.floor(along))
    const from = turns[index] ?? 0
    return from + ((turns[index + 1] ?? from) - from) * (along - index)
  }
  const at = (along: number): Point => {
    const index = Math.max(0, Math.floor(along))
    return offset(points[index] ?? here, heading(along), along - index, 0)
  }
  const spine = { at, heading }
  spines[pose] = spine
  return spine
}

/** The drawing of one shape. The same numbers always give the same text. */
export function geckoOutline(shape: GeckoShape, pose: GeckoPose = 'resting'): GeckoOutline {
  const stations = halfWidthStations(shape)
  const end = stations[stations.length - 1]?.at ?? wholeTailEnd
  const spine = spineOf(pose)
  const half = (along: number): number => between(stations, along)
  /** A point of the body: `across` from -1 (left edge) to 1 (right edge). */
  const place = (along: number, across: number): Point =>
    offset(spine.at(along), spine.heading(along), 0, across * half(along))

  const places = placesAlong(0, end)
  const body = closedPath([
    ...places.map(along => place(along, -1)),
    ...places
      .slice(1, -1)
      .reverse()
      .map(along => place(along, 1)),
  ])
  const zone = (from: number, to: number, left: number, right: number): string =>
    straightPath([
      ...placesAlong(from, to).map(along => place(along, left)),
      ...placesAlong(from, to)
        .reverse()
        .map(along => place(along, right)),
    ])

  const regions: Partial<Record<RegionName, string>> = {
    'region-head': zone(0, 30, -1, 1),
    'region-neck': zone(30, 43, -1, 1),
    'region-back': zone(43, 113, -0.52, 0.52),
    'region-belly': zone(43, 113, -1, -0.52) + zone(43, 113, 0.52, 1),
    'region-mouth': zone(0.4, 19, -1, -0.7) + zone(0.4, 19, 0.7, 1) + zone(0, 1.7, -1, 1),
    'region-nostrils': [-1, 1]
      .map(side => ellipsePath(place(4.4, side * 0.42), 1.9, 1.6, spine.heading(4)))
      .join(''),
    'region-vent': ellipsePath(place(ventAt, 0), 2.1, 4.6, spine.heading(ventAt)),
  }
  if (shape.tailLost) {
    regions['region-tail-base'] = zone(113, end, -1, 1)
  } else {
    const tipAt = end - (end - ventAt) * 0.22
    regions['region-tail-base'] = zone(113, 128, -1, 1)
    regions['region-tail'] = zone(128, tipAt, -1, 1)
    regions['region-tail-tip'] = zone(tipAt, end, -1, 1)
  }

  const limbPaths: string[] = []
  for (const limb of limbs(pose)) {
    const side = limb.name.endsWith('left') ? -1 : 1
    const root = spine.at(limb.rootAt)
    const heading = spine.heading(limb.rootAt)
    const line = limb.joints.map(([back, out]) => offset(root, heading, back, side * out))
    const leg = closedPath(ribbonPoints(line, limb.halfWidths))
    const wrist = line[line.length - 1] ?? root
    const pointing = heading + Math.PI + side * -limb.footTurn
    const palm = offset(wrist, pointing, 1.6, 0)
    const toes = limb.toes.map(([turn, length]) => {
      const angle = pointing - side * turn
      const start = offset(palm, angle, 0.6, 0)
      const bend = offset(palm, angle, length * 0.6, 0)
      const tip = offset(palm, angle - side * turn * 0.1, length, 0)
      return closedPath(ribbonPoints([start, bend, tip], [1.6, 1.2, 0.95], 2))
    })
    const foot = ellipsePath(palm, 2.9, 3.1, pointing) + toes.join('')
    regions[`region-leg-${limb.name}`] = leg
    regions[`region-toes-${limb.name}`] = foot
    limbPaths.push(leg, foot)
  }

  const eyes: string[] = []
  const pupils: string[] = []
  const lines: string[] = []
  for (const side of [-1, 1]) {
    const heading = spine.heading(16.2)
    const tilt = heading + side * 0.24
    const centre = offset(spine.at(16.2), heading, 0, side * 9.9)
    const eye = leafPath(centre, 4.7, [side * 3.8, side * -3.6], tilt)
    eyes.push(eye)
    regions[side < 0 ? 'region-eye-left' : 'region-eye-right'] = leafPath(
      centre,
      6.4,
      [side * 6.4, side * -7.4],
      tilt,
    )
    pupils.push(arcPath(centre, 2.3, side * 0.7, tilt))
    lines.push(arcPath(centre, 6.3, side * -7.6, tilt), ellipsePath(place(3.9, side * 0.4), 0.35, 0.25, 0))
  }

  return {
    viewBox: views[pose],
    body,
    limbs: limbPaths,
    regions,
    underside: [regions['region-vent'] ?? ''],
    eyes,
    pupils,
    lines,
    spots: spotPaths(shape, spine, place, end),
    bands: bandPaths(shape, place, end),
    neckGuides: [-1, 1].flatMap(side =>
      [
        [30, 43],
        [121, 190],
      ].map(([from = 0, to = 0]) =>
        openPath([from, to].map(along => offset(spine.at(along), spine.heading(along), 0, side * neckHalf))),
      ),
    ),
    halfWidths: { neck: neckHalf, tail: half(shape.tailLost ? 124 : 145), trunk: half(76) },
  }
}

/** Close together where the line turns fast (snout and tip), wider along the trunk. */
function placesAlong(from: number, to: number): number[] {
  const near = [0.5, 1.8, 3.8]
  const places = new Set<number>([from, to])
  for (const step of near) {
    if (from + step < to) places.add(from + step)
    if (to - step > from) places.add(to - step)
  }
  for (let along = Math.ceil((from + 6) / 3) * 3; along < to - 5; along += 3) places.add(along)
  return [...places].sort((a, b) => a - b)
}

function straightPath(points: readonly Point[]): string {
  return `M${points.map(pointText).join('L')}Z`
}

/** Evenly scattered without a pattern: steps of the plastic number fill a plane without clumps. */
function scatter(index: number): readonly [number, number, number] {
  const part = (step: number): number => (0.5 + index * step) % 1
  return [part(0.7548776662), part(0.569840291), part(0.4142135624)]
}

type Place = (along: number, across: number) => Point

function spotPaths(shape: GeckoShape, spine: Spine, place: Place, end: number): string[] {
  const spots: string[] = []
  const add = (along: number, across: number, size: number): void => {
    spots.push(ellipsePath(place(along, across), size * 1.12, size, spine.heading(along) + across))
  }
  for (let index = 0; index < 46; index += 1) {
    const [one, two, three] = scatter(index)
    add(44 + one * 68, (two * 2 - 1) * 0.8, 0.9 + three * 0.95)
  }
  for (let index = 0; index < 9; index += 1) {
    const [one, two, three] = scatter(index + 100)
    add(21 + one * 12, (two * 2 - 1) * 0.62, 0.7 + three * 0.5)
  }
  if (shape.tailLost) return spots
  const count = shape.regrownTail ? 20 : 0
  for (let index = 0; index < count; index += 1) {
    const [one, two, three] = scatter(index + 200)
    add(126 + one * (end - 132), (two * 2 - 1) * 0.75, 0.45 + three * 0.35)
  }
  return spots
}

function bandPaths(shape: GeckoShape, place: Place, end: number): string[] {
  if (shape.tailLost || shape.regrownTail) return []
  const bands: string[] = []
  for (let along = 128; along < end - 12; along += 11) {
    const thickness = 3.6 - (along - 128) * 0.022
    bands.push(
      closedPath([
        place(along, -0.78),
        place(along - 0.9, -0.3),
        place(along - 0.9, 0.3),
        place(along, 0.78),
        place(along + thickness * 0.7, 0.74),
        place(along + thickness, 0.2),
        place(along + thickness, -0.2),
        place(along + thickness * 0.7, -0.74),
      ]),
    )
  }
  return bands
}
