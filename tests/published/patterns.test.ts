import { describe, expect, test } from 'vitest'
import type { Assessment } from '../../shared/assessment.ts'
import { atLeastAsUrgent, rankOf, type Urgency } from '../../shared/urgency.ts'
import { leopardGecko, type Pattern, patterns, shortly, weigh } from './cases.ts'

const protocol = leopardGecko()
const measured = new Set(
  protocol.logic.questions.flatMap(({ id, cannotMeasure }) => (cannotMeasure ? [id] : [])),
)

/** How urgent a settled assessment is, a shorter window within one urgency being more urgent. */
function rank({ urgency, withinHours }: Assessment): number {
  return urgency === undefined
    ? 0
    : rankOf(withinHours === undefined ? { urgency } : { urgency, withinHours })
}

/** The same case told by an owner who has no scale, no thermometer and no dates. */
function unmeasured({ weighIns: _, answers = {}, ...rest }: Pattern['caseFile']): Pattern['caseFile'] {
  const kept = Object.entries(answers).map(
    ([question, answer]) => [question, measured.has(question) ? 'cannot-measure' : answer] as const,
  )
  return { ...rest, answers: { ...Object.fromEntries(kept), weights: 'cannot-measure' } }
}

function expectSettledWithin(assessment: Assessment, least: Urgency, most: Urgency): void {
  const { urgency } = assessment
  expect(assessment.settled, shortly(assessment)).toBe(true)
  expect(urgency && atLeastAsUrgent(urgency, least), `too low: ${shortly(assessment)}`).toBe(true)
  expect(urgency && atLeastAsUrgent(most, urgency), `too high: ${shortly(assessment)}`).toBe(true)
}

describe.each([
  ['must be right', patterns.filter(({ atLeast }) => atLeast !== undefined)],
  ['must not be over-triaged', patterns.filter(({ atLeast }) => atLeast === undefined)],
])('a pattern that %s', (_, some) => {
  for (const { id, says, evidence, atLeast, atMost, withinHoursAtMost, now, caseFile, breaks } of some) {
    const from = evidence.join(', ') || 'from memory'

    test(`${says} (${id}; ${from})`, () => {
      const assessment = weigh(protocol, caseFile, now)
      expectSettledWithin(assessment, atLeast ?? 'well', atMost ?? 'now')
      const limit =
        withinHoursAtMost === undefined || atLeast === undefined
          ? 0
          : rankOf({ urgency: atLeast, withinHours: withinHoursAtMost })
      expect(rank(assessment), `too late: ${shortly(assessment)}`).toBeGreaterThanOrEqual(limit)
    })

    for (const { says: changed, answers, weighIns, events } of breaks ?? []) {
      test(`${says} Never less urgent when one thing changes: ${changed} (${id}; ${from})`, () => {
        const whole = weigh(protocol, caseFile, now)
        const broken = weigh(
          protocol,
          {
            ...caseFile,
            answers: { ...caseFile.answers, ...answers },
            ...(weighIns ? { weighIns } : {}),
            ...(events ? { events } : {}),
          },
          now,
        )
        expect(broken.settled, shortly(broken)).toBe(true)
        expect(rank(broken), `${shortly(whole)}; changed: ${shortly(broken)}`).toBeGreaterThanOrEqual(
          rank(whole),
        )
      })
    }

    if (atLeast === undefined && id !== 'N8-daily-wobble') {
      test(`${says} The same for an owner who has measured nothing. (${id}; ${from})`, () => {
        expectSettledWithin(weigh(protocol, unmeasured(caseFile), now), 'well', atMost ?? 'now')
      })
    }
  }
})
