import { describe, expect, test } from 'vitest'
import { atLeastAsUrgent } from '../../shared/urgency.ts'
import { leopardGecko, publishedCases, shortly, weigh } from './cases.ts'

const protocol = leopardGecko()

for (const { id, source, allowed, caseFile, now } of publishedCases) {
  describe(`${id}, ${source.citation}`, () => {
    const assessment = weigh(protocol, caseFile, now)
    const { urgency } = assessment

    test('settles once everything the case tells is answered', () => {
      expect(assessment.settled, shortly(assessment)).toBe(true)
    })

    test(`is at least ${allowed.min} and at most ${allowed.max}`, () => {
      expect(urgency && atLeastAsUrgent(urgency, allowed.min), `too low: ${shortly(assessment)}`).toBe(true)
      expect(urgency && atLeastAsUrgent(allowed.max, urgency), `too high: ${shortly(assessment)}`).toBe(true)
    })

    test('never settles lower when any one answer is left out', () => {
      const { answers = {}, ...rest } = caseFile
      const fallen = Object.keys(answers).flatMap(question => {
        const { [question]: _, ...others } = answers
        const less = weigh(protocol, { ...rest, answers: others }, now)
        const fell = less.urgency && urgency && !atLeastAsUrgent(less.urgency, urgency)
        return fell ? [`without ${question}: ${shortly(less)}`] : []
      })
      expect(fallen, shortly(assessment)).toEqual([])
    })
  })
}

test('all 37 published cases stand in the table of what is allowed and what came out', () => {
  const table = publishedCases.map(({ id, allowed, caseFile, now }) => {
    const { urgency, withinHours } = weigh(protocol, caseFile, now)
    return { id, allowed: `${allowed.min} to ${allowed.max}`, got: urgency, withinHours }
  })
  console.table(table)
  expect(table).toHaveLength(37)
})
