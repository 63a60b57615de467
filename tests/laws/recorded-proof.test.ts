import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import * as z from 'zod/mini'
import { realProtocol } from './real-protocol.ts'
import { presentHashes, RECORD } from './recorded.ts'

const names = z.record(z.string(), z.array(z.string()))
const rulesSchema = z.looseObject({
  rules: z.number(),
  rulesInFull: z.number(),
  decideAlone: z.number(),
  decideInScope: names,
  dominatedBy: names,
  coveredBy: names,
  faults: z.number(),
})
const recordSchema = z.looseObject({
  logic: z.string(),
  code: z.string(),
  faults: z.array(z.string()),
  general: rulesSchema,
  concerns: z.record(
    z.string(),
    z.extend(rulesSchema, { states: z.number(), walks: z.string(), answerSets: z.string() }),
  ),
})

const read = () => recordSchema.parse(JSON.parse(readFileSync(RECORD, 'utf8')))

describe('the recorded proof', () => {
  test('is of the present logic and code, and found no fault', () => {
    expect(existsSync(RECORD), 'There is no recorded proof: run npm run proof').toBe(true)
    const record = read()
    const { logic, code } = presentHashes()
    expect(record.logic, 'The content changed since the recorded proof: run npm run proof').toBe(logic)
    expect(record.code, 'The code changed since the recorded proof: run npm run proof').toBe(code)
    expect(record.faults).toEqual([])
  })
  test('has every concern walked, and every rule proved in full and found to decide or to be dominated', () => {
    const { general, concerns } = read()
    const { logic } = realProtocol()
    expect(Object.keys(concerns).sort()).toEqual([...logic.concerns].sort())
    for (const [name, one] of Object.entries({ general, ...concerns })) {
      const count = (of: Readonly<Record<string, readonly string[]>>) => Object.keys(of).length
      const settled =
        one.decideAlone + count(one.decideInScope) + count(one.dominatedBy) + count(one.coveredBy)
      expect([one.rulesInFull, settled, one.faults], name).toEqual([one.rules, one.rules, 0])
    }
    const rules = general.rules + Object.values(concerns).reduce((sum, one) => sum + one.rules, 0)
    expect(rules).toBe(logic.rules.length)
  })
})
