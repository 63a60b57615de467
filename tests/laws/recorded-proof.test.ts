import { existsSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { presentHashes, RECORD } from './recorded.ts'

test('the recorded proof is of the present logic and code', () => {
  expect(existsSync(RECORD), 'There is no recorded proof: run npm run proof').toBe(true)
  const record = JSON.parse(readFileSync(RECORD, 'utf8'))
  const { logic, code } = presentHashes()
  expect(record.logic, 'The content changed since the recorded proof: run npm run proof').toBe(logic)
  expect(record.code, 'The code changed since the recorded proof: run npm run proof').toBe(code)
  expect(record.faults).toEqual([])
})
