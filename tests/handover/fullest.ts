import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Handover } from '../../shared/handover.ts'
import type { AnimalRecord } from '../../shared/record.ts'
import { harderCase } from '../../src/cli/bench-cases.ts'
import { realHandover } from '../../src/cli/real-handover.ts'
import { handoverDocument, openHistory } from '../../src/handover/document.ts'
import { allWords, wordBook } from '../../src/handover/word-book.ts'
import { assess } from '../../src/triage/assess.ts'
import { realCompiled, realProtocol } from '../laws/real-protocol.ts'

/**
 * The fullest history: every question of the protocol answered with some twenty reasons, every question of history
 * forms too, and three years of weekly weights.
 */

export const NOW = { instant: '2026-11-25T02:10:00.000Z', zone: 'Europe/London' }
const DAY_MS = 86_400_000
const before = (days: number) => new Date(Date.parse(NOW.instant) - days * DAY_MS).toISOString()

/** Every question answered, three concerns, about twenty reasons; each answer at its own minute, as in a real walk. */
function answered(): CaseFile {
  const { logic } = realCompiled()
  const { answers, ...rest } = harderCase(realProtocol(), NOW)
  const at = new Map(logic.questions.map(({ id }, index) => [id, index]))
  const given = (id: string) =>
    new Date(Date.parse(NOW.instant) - (logic.questions.length - (at.get(id) ?? 0)) * 17_321).toISOString()
  return {
    ...rest,
    answers: Object.fromEntries(
      Object.entries(answers).map(([id, answer]): [string, Answer] => [id, { ...answer, given: given(id) }]),
    ),
  }
}

const WEEKS = 157

/** An invented animal that was weighed every week for three years, at no regular hour. */
export function inventedRecord(): AnimalRecord {
  // A seeded walk, so that the weights are as hard to pack as real ones.
  let seed = 20_261_125
  const random = () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648
    return seed / 2_147_483_648
  }
  return {
    animalId: 'invented',
    animal: {
      name: 'an invented gecko',
      colourLine: 'invented line',
      hatchedOn: '2022-05-01',
      hatchedCertainty: 'likely',
      sex: 'female',
      sexCertainty: 'sure',
    },
    weighIns: Array.from({ length: WEEKS }, (_, week) => ({
      itemId: `weight ${week}`,
      at: new Date(
        Date.parse(before((WEEKS - 1 - week) * 7)) - Math.floor(random() * 20_000) * 1000,
      ).toISOString(),
      massGrams: Math.round((45 + week / 20 + random() * 4) * 10) / 10,
      scaleStepGrams: 0.1,
    })),
    events: (['meal', 'dropping', 'shed', 'eggs-laid', 'new-home', 'treated', 'tail-lost'] as const).flatMap(
      kind =>
        [3, 40, 80, 120].map(days => ({
          itemId: `${kind} ${days}`,
          at: before(days),
          kind,
          seen: true,
          note: 'an invented note about it',
        })),
    ),
    readings: ['warm floor', 'cool end', 'night low', 'humidity'].map((what, at) => ({
      itemId: what,
      at: before(at),
      what,
      value: 30 - at,
      unit: at === 3 ? 'percent' : 'celsius',
      measuredWith: 'an invented probe',
      measuredWhere: 'on the floor under the lamp',
    })),
    assessments: [],
  }
}

export function fullestHistory(): Handover {
  const compiled = realCompiled()
  const content = realHandover(compiled)
  const caseFile = answered()
  const asked = openHistory({ content, caseFile })
  return handoverDocument({
    logic: compiled.logic,
    frame: compiled.frame,
    book: wordBook(compiled.logic, allWords(compiled)),
    content,
    caseFile,
    record: inventedRecord(),
    assessment: assess(realProtocol(), caseFile, NOW),
    history: Object.fromEntries(
      asked.map(({ id, ask }, at) => [
        id,
        `Invented answer ${at}, in a sentence of its own: ${ask.slice(0, 25)}`,
      ]),
    ),
    note: 'Everything in this history is invented.',
  })
}
