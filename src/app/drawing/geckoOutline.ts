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
} from './curve.ts'
import {
  type GeckoPose,
  type GeckoShape,
  halfWidthStations,
  headings,
  limbs,
  neckHalf,
  type ViewBox,
  ventAt,
  views,
  wholeTailEnd,
} from './geckoShape.ts'

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
  readonly viewBox: ViewBox
  /** Trunk, head and tail as one closed line. */
  readonly body: string
  /** Four legs and four feet, each closed, to be drawn under the body. */
  readonly limbs: readonly string[]
  /** Closed lines of the places that can be marked. */
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
  const spine = spineOf(pose)
  const half = (along: number): number => between(stations, along)
  /** A point of the body: `across` from -1 (left edge) to 1 (right edge). */
  const place = (along: number, across: number): Point =>
    offset(spine.at(along), spine.heading(along), 0, across * half(along))

  const places = placesAlong(0, wholeTailEnd)
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
  const tipAt = wholeTailEnd - (wholeTailEnd - ventAt) * 0.22
  regions['region-tail-base'] = zone(113, 128, -1, 1)
  regions['region-tail'] = zone(128, tipAt, -1, 1)
  regions['region-tail-tip'] = zone(tipAt, wholeTailEnd, -1, 1)

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
    spots: spotPaths(spine, place),
    bands: bandPaths(place),
    neckGuides: [-1, 1].flatMap(side =>
      [
        [30, 43],
        [121, 190],
      ].map(([from = 0, to = 0]) =>
        openPath([from, to].map(along => offset(spine.at(along), spine.heading(along), 0, side * neckHalf))),
      ),
    ),
    halfWidths: { neck: neckHalf, tail: half(145), trunk: half(76) },
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

function spotPaths(spine: Spine, place: Place): string[] {
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
  return spots
}

function bandPaths(place: Place): string[] {
  const bands: string[] = []
  for (let along = 128; along < wholeTailEnd - 12; along += 11) {
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
