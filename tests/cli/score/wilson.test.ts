import fc from 'fast-check'
import { expect, test } from 'vitest'
import { shareOf } from '../../../src/cli/score/wilson.ts'

// Newcombe RG (1998), Statistics in Medicine 17:857-872, table I, method 3 (score, without continuity correction), as
// relayed by several open-source test suites; R 4.2.2, prop.test(count, of, correct = FALSE), prints the same.
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('%i of %i is %d to %d, as the published worked examples have it', (count, of, low, high) => {
  const share = shareOf(count, of)
  expect(share.share).toBe(count / of)
  expect(Math.abs(share.low - low)).toBeLessThanOrEqual(0.00005)
  expect(Math.abs(share.high - high)).toBeLessThanOrEqual(0.00005)
})

test('the interval lies from 0 to 1, holds the share, and mirrors that of what failed', () => {
  const counts = fc
    .integer({ min: 1, max: 500 })
    .chain(of => fc.tuple(fc.integer({ min: 0, max: of }), fc.constant(of)))
  fc.assert(
    fc.property(counts, ([count, of]) => {
      const { low, share, high } = shareOf(count, of)
      const failed = shareOf(of - count, of)
      expect(low).toBeGreaterThanOrEqual(0)
      expect(high).toBeLessThanOrEqual(1)
      expect(low).toBeLessThanOrEqual(share + 1e-12)
      expect(high).toBeGreaterThanOrEqual(share - 1e-12)
      expect(failed.low).toBeCloseTo(1 - high, 12)
    }),
  )
})

test.each([
  [0, 0],
  [3, 2],
  [-1, 4],
])('%i of %i is refused', (count, of) => {
  expect(() => shareOf(count, of)).toThrow(RangeError)
})
