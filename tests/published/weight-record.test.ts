import { describe, expect, it } from 'vitest'
import type { CaseFile } from '../../shared/case-file.ts'
import { atLeastAsUrgent, levelOf } from '../../shared/urgency.ts'
import { assess } from '../../src/triage/assess.ts'
import { standingOf } from '../../src/triage/bounds.ts'
import { realCompiled, realProtocol } from '../laws/real-protocol.ts'

// The two records that a vet's objection to plain statistics names: the newest reading looks like an outlier and is
// the one that matters; and twelve percent in thirty days falls between "a tenth in two weeks" and "a fifth".

const START = Date.UTC(2026, 9, 1, 18)
const at = (days: number) => new Date(START + days * 86_400_000).toISOString()

function recordOf(
  masses: Readonly<Record<number, number>>,
  answers: CaseFile['answers'] = {},
  events: CaseFile['events'] = [],
): { caseFile: CaseFile; now: { instant: string; zone: string } } {
  const days = Object.keys(masses).map(Number)
  return {
    caseFile: {
      animal: {},
      answers,
      weighIns: days.map(day => ({ at: at(day), massGrams: masses[day] ?? 0, scaleStepGrams: 0.5 })),
      events,
      readings: [],
    },
    now: { instant: at(Math.max(...days)), zone: 'Europe/London' },
  }
}

/** The least that the weights give, whatever is answered. */
function leastOf({ caseFile, now }: ReturnType<typeof recordOf>) {
  const { logic } = realCompiled()
  const concern = logic.questions[logic.concernQuestion]?.id ?? ''
  return logic.concerns.map(chosen => {
    const answers: CaseFile['answers'] = {
      ...caseFile.answers,
      [concern]: { kind: 'several', chosen: [chosen], rest: 'no', given: now.instant },
    }
    const { lower } = standingOf(realProtocol(), { ...caseFile, answers }, now)
    return levelOf(lower)?.urgency ?? 'well'
  })
}

describe('a weight record in the real protocol', () => {
  const fast = recordOf({ 0: 60, 7: 61, 14: 60, 21: 60.5, 28: 52 })
  const slow = recordOf({ 0: 60, 30: 52.8 })

  it('gives at least a day for 60, 61, 60, 60.5 and 52 g weekly, whatever the owner came with', () => {
    expect(leastOf(fast).every(urgency => atLeastAsUrgent(urgency, 'day'))).toBe(true)
    expect(assess(realProtocol(), fast.caseFile, fast.now)).toMatchObject({
      lowerBound: { urgency: expect.stringMatching(/^(day|now)$/) },
    })
  })

  it('gives at least a week for 60 g and 52.8 g thirty days later', () => {
    expect(leastOf(slow).every(urgency => atLeastAsUrgent(urgency, 'week'))).toBe(true)
  })

  it('gives nothing of its own for weights that only wobble', () => {
    const wobble = recordOf({ 0: 60, 7: 60.5, 14: 60, 21: 59.5, 28: 60 })
    expect(leastOf(wobble).some(urgency => atLeastAsUrgent(urgency, 'week'))).toBe(false)
  })

  it('gives nothing for a whole tail that was lost in between, and a day for the same step without it', () => {
    const masses = { 0: 60, 7: 60, 14: 60, 18: 45 }
    const lost = [{ at: at(15), kind: 'tail-lost' as const }]
    expect(leastOf(recordOf(masses, {}, lost)).some(urgency => atLeastAsUrgent(urgency, 'week'))).toBe(false)
    expect(leastOf(recordOf(masses)).every(urgency => atLeastAsUrgent(urgency, 'day'))).toBe(true)
  })
})
