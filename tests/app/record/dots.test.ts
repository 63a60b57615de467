import { expect, test } from 'vitest'
import { drawnReadings } from '../../../src/app/record/chart/dots.ts'
import type { Reading } from '../../../src/measure/series.ts'

const reading = (atMilliseconds: number, massGrams: number, outlier = false): Reading => ({
  at: new Date(atMilliseconds).toISOString(),
  atMilliseconds,
  massGrams,
  scaleStepGrams: 0.1,
  weighings: 1,
  spreadGrams: 0,
  outlier,
  settling: false,
  footingGrams: massGrams,
})

test('a column of pixels has its lightest and its heaviest, every odd one, and the newest', () => {
  const all = [
    reading(0, 60),
    reading(1, 58),
    reading(2, 62),
    reading(3, 90, true),
    reading(10, 61),
    reading(11, 64),
    reading(12, 59),
    reading(13, 61),
  ]
  const { dots, odd } = drawnReadings(all, ms => Math.floor(ms / 10))
  expect(dots.map(({ massGrams }) => massGrams)).toEqual([58, 62, 59, 64, 61])
  expect(odd).toEqual([all[3]])
})

test('readings that stand apart are all drawn', () => {
  const apart = [reading(0, 60), reading(10, 60), reading(20, 60)]
  expect(drawnReadings(apart, ms => ms).dots).toEqual(apart)
})
