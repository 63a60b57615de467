import { describe, expect, test } from 'vitest'
import { atLeastAsUrgent } from '../../shared/urgency.ts'
import { leopardGecko, publishedCases, shortly, weigh } from './cases.ts'
import { KNOWN_ABOVE } from './known-above.ts'

const protocol = leopardGecko()

for (const { id, source, allowed, caseFile, now } of publishedCases) {
  describe(`${id}, ${source.citation}`, () => {
    const assessment = weigh(protocol, caseFile, now)
    const { urgency } = assessment
    const known = KNOWN_ABOVE[id]

    test('settles once everything the case tells is answered', () => {
      expect(assessment.settled, shortly(assessment)).toBe(true)
    })

    test(`is at least ${allowed.min}`, () => {
      expect(urgency && atLeastAsUrgent(urgency, allowed.min), `too low: ${shortly(assessment)}`).toBe(true)
    })

    test(known ? `is known to come out above ${allowed.max}` : `is at most ${allowed.max}`, () => {
      const inRange = urgency && atLeastAsUrgent(allowed.max, urgency)
      expect(inRange, shortly(assessment)).toBe(!known)
      if (known) expect(urgency, shortly(assessment)).toBe(known.got)
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

const table = publishedCases.map(({ id, kind, proxySpecies, allowed, caseFile, now }) => {
  const { urgency, withinHours } = weigh(protocol, caseFile, now)
  return { id, kind, proxySpecies, allowed: `${allowed.min} to ${allowed.max}`, got: urgency, withinHours }
})

describe('all 114 published cases', () => {
  test('stand in the table of what is allowed and what came out', () => {
    console.table(table)
    expect(table).toHaveLength(114)
  })

  test('come out above what the source allows in 9 % or less, of the 77 later ones too', () => {
    const later = table.filter(({ id }) => id.startsWith('PX'))
    const above = Object.keys(KNOWN_ABOVE)
    expect(above.filter(id => !table.some(row => row.id === id))).toEqual([])
    expect(above.length / table.length).toBeLessThanOrEqual(0.09)
    expect(above.filter(id => id.startsWith('PX')).length / later.length).toBeLessThanOrEqual(0.09)
  })
})
