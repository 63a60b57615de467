import { expect, test } from 'vitest'
import { newId } from '../../src/records/ids.ts'

test('no name comes twice, past the end of a portion of chance too', () => {
  const names = Array.from({ length: 1000 }, newId)
  expect(new Set(names).size).toBe(1000)
  expect(names.every(name => /^[0-9a-f]{24}$/.test(name))).toBe(true)
})
