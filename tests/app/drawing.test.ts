import { describe, expect, test } from 'vitest'
import { between } from '../../src/app/drawing/curve.ts'
import { geckoOutline, regionNames } from '../../src/app/drawing/geckoOutline.ts'
import {
  type GeckoPose,
  type GeckoShape,
  halfWidthStations,
  ordinaryGecko,
} from '../../src/app/drawing/geckoShape.ts'
import { timeArc } from '../../src/app/drawing/timeArc.ts'

const poses: GeckoPose[] = ['resting', 'straight']
const shapes: GeckoShape[] = [0.4, 0.6, 1, 1.45, 1.8].flatMap(tailWidth =>
  [-1, 0, 1].map(condition => ({ ...ordinaryGecko, tailWidth, condition })),
)

/** Every point a path passes through or is pulled towards. */
function points(path: string): [number, number][] {
  return [...path.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)])
}

describe.each(poses)('%s', pose => {
  test('is the same text for the same numbers, and all of it numbers', () => {
    for (const shape of shapes) {
      const outline = geckoOutline(shape, pose)
      expect(geckoOutline(shape, pose)).toEqual(outline)
      expect(JSON.stringify(outline)).not.toMatch(/NaN|Infinity|undefined|e-\d/)
      expect(outline.body).toMatch(/^M[-\d. C]+Z$/)
    }
  })

  test('stays inside its picture with room for the line', () => {
    for (const shape of shapes) {
      const { viewBox, body, limbs } = geckoOutline(shape, pose)
      const all = [body, ...limbs.map(limb => limb.replace(/A[\d. -]+? 0 1 /g, ' '))].flatMap(points)
      const xs = all.map(([x]) => x)
      const ys = all.map(([, y]) => y)
      expect(Math.min(...xs)).toBeGreaterThan(viewBox.x + 1)
      expect(Math.max(...xs)).toBeLessThan(viewBox.x + viewBox.width - 1)
      expect(Math.min(...ys)).toBeGreaterThan(viewBox.y + 1)
      expect(Math.max(...ys)).toBeLessThan(viewBox.y + viewBox.height - 1)
    }
  })

  test('has every region', () => {
    expect(Object.keys(geckoOutline(ordinaryGecko, pose).regions).sort()).toEqual([...regionNames].sort())
  })
})

test('the straight animal is the same on both sides', () => {
  const { body } = geckoOutline(ordinaryGecko, 'straight')
  const xs = points(body).map(([x]) => x)
  expect(Math.max(...xs)).toBeCloseTo(-Math.min(...xs), 1)
})

test('the tail is as wide as it is told, measured in necks', () => {
  for (const tailWidth of [0.5, 1, 1.5]) {
    const { halfWidths } = geckoOutline({ ...ordinaryGecko, tailWidth })
    expect(halfWidths.tail / halfWidths.neck).toBeCloseTo(tailWidth, 1)
  }
})

test('a fuller animal is wider at the trunk, never at the neck', () => {
  const at = (condition: number) => geckoOutline({ ...ordinaryGecko, condition }).halfWidths
  expect(at(-1).trunk).toBeLessThan(at(0).trunk)
  expect(at(0).trunk).toBeLessThan(at(1).trunk)
  expect(at(-1).neck).toBe(at(1).neck)
})

test('stations rise along the animal and no width is below zero between them', () => {
  for (const shape of shapes) {
    const stations = halfWidthStations(shape)
    for (let index = 1; index < stations.length; index += 1) {
      expect(stations[index]!.at).toBeGreaterThan(stations[index - 1]!.at)
    }
    for (let along = 0; along < 206; along += 0.5) expect(between(stations, along)).toBeGreaterThanOrEqual(0)
  }
})

describe('the time circle', () => {
  test('draws no band for nothing and a whole one for all', () => {
    expect(timeArc(0).band).toBe('')
    expect(points(timeArc(1).band).length).toBeGreaterThan(40)
    expect(timeArc(2).band).toBe(timeArc(1).band)
    expect(timeArc(-1).band).toBe('')
    expect(timeArc(Number.NaN).band).toBe('')
  })

  test('starts at the top and ends where the fraction says', () => {
    expect(timeArc(0.25).now).toEqual({ x: 0, y: -44 })
    for (const [, y] of points(timeArc(0.25).end)) expect(y).toBe(0)
  })

  test('marks one stroke for each place and has room for its number outside the rim', () => {
    const { strokes, numbers, radius } = timeArc(0.5, [0.25, 1])
    expect(strokes.match(/M/g)).toHaveLength(2)
    expect(numbers.map(({ x, y }) => Math.hypot(x, y) > radius)).toEqual([true, true])
    expect(numbers[0]).toMatchObject({ y: 0 })
  })
})
