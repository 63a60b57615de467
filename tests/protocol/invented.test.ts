import { expect, it } from 'vitest'
import type { Moment } from '../../shared/moment.ts'
import { loadProtocol } from '../../src/protocol/load.ts'
import { assess } from '../../src/triage/assess.ts'
import { prepare } from '../../src/triage/prepare.ts'
import { readCaseFile } from '../../src/triage/read-case-file.ts'
import { DUNE_SKINK, faultsAfter, INVENTED } from './invented.ts'

const NOW: Moment = { instant: '2026-05-04T20:00:00Z', zone: 'Europe/Berlin' }

function inventedLogic() {
  const loaded = loadProtocol(INVENTED, DUNE_SKINK)
  if (!loaded.ok) throw new Error('the invented content has faults')
  return loaded.compilation.protocol.logic
}

/** Answers question after question as `assess` asks for them, until nothing matters any more. */
function walk(answers: Readonly<Record<string, unknown>>) {
  const logic = inventedLogic()
  const protocol = prepare(logic)
  const given: Record<string, unknown> = {}
  for (;;) {
    const read = readCaseFile(logic, { answers: given }, NOW)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const assessment = assess(protocol, read.value, NOW)
    const next = assessment.nextQuestion
    if (next === undefined) return { asked: Object.keys(given), assessment }
    if (!(next in answers)) throw new Error(`no answer for ${next}`)
    given[next] = answers[next]
  }
}

const WELL = {
  'look-sand': [],
  'look-ear': [],
  'which-skink': 'dune',
  tried: [],
  digging: 'digs-well',
  'sand-warmth': 35,
}

it('has no fault, and says its counts', () => {
  expect(faultsAfter()).toEqual([])
  const loaded = loadProtocol(INVENTED, DUNE_SKINK)
  expect(loaded.ok && loaded.counts).toEqual({
    rules: 10,
    questions: 14,
    signs: 2,
    concerns: 2,
    findings: 2,
    carePlans: 3,
    sources: 3,
    evidenceRows: 6,
    evidenceRowsUsed: 5,
    evidenceRowsLeftOut: 1,
  })
})

it('ends at once when a danger sign at now is there', () => {
  const { asked, assessment } = walk({ 'look-sand': ['sinking'] })
  expect(asked).toEqual(['look-sand'])
  expect(assessment.urgency).toBe('now')
})

it('ends at well when it hums at dusk', () => {
  const { assessment } = walk({
    ...WELL,
    worry: ['humming'],
    'humming-now': 'hums-standing',
    'humming-when': 'at-dusk',
  })
  expect(assessment).toMatchObject({ settled: true, urgency: 'well', concerns: ['humming'] })
})

it('ends at week when back and belly have faded for a week, and the gate was opened on the way', () => {
  const { asked, assessment } = walk({
    ...WELL,
    worry: ['fading'],
    'fading-now': 'stands',
    'fading-where': ['back', 'belly'],
    'fading-since': { hoursAgo: 200 },
  })
  expect(asked).toContain('fading-since')
  expect(assessment).toMatchObject({ settled: true, urgency: 'week', withinHours: 168 })
  expect(assessment.reasons.map(({ rule }) => rule)).toContain('fading-both')
})
