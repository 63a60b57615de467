import type { Handover } from '../../shared/handover.ts'

/** Signs that are said on the telephone; more would take longer than half a minute. */
const MOST_SIGNS = 3

/** What to say on the telephone in about 30 seconds: the animal, the signs that are there, and the question to ask. */
export function sayOnTelephone(history: Handover, question: string): string {
  const { present } = history.dangerSigns
  const signs = present.slice(0, MOST_SIGNS).map(({ label }) => label)
  return [
    `I have a ${history.readAloud.charAt(0).toLowerCase()}${history.readAloud.slice(1)}`,
    ...(signs.length > 0 ? [`I see now: ${signs.join('; ')}.`] : []),
    ...(history.underVet.length > 0 ? ['A vet is treating it already.'] : []),
    question,
  ].join(' ')
}
