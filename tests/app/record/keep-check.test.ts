import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { EMPTY_CASE_FILE } from '../../../shared/answers.ts'
import { caseOf } from '../../../src/app/record/case-of.ts'
import { keepCheck } from '../../../src/app/record/keep-check.ts'
import { addAnimal, saveEvent, saveWeighIn } from '../../../src/records/actions.ts'
import { openKeeperStore } from '../../../src/records/keeper-store.ts'
import { realProtocol } from '../../laws/real-protocol.ts'

const protocol = realProtocol()
const NOW = { instant: '2026-11-25T19:00:00Z', zone: 'Europe/London' }

async function withAnimal(name: string, more: object = {}) {
  const store = openKeeperStore(name)
  await store.opened
  const animal = addAnimal(store.writing(NOW.instant), { name: 'Ember', hatchedOn: '2023-05-01', ...more })
  const weighIn = { at: '2026-11-18T19:00:00Z', massGrams: 60, scaleStepGrams: 1, meal: 'before' as const }
  const event = {
    at: '2026-11-01T12:00:00Z',
    kind: 'tail-lost' as const,
    share: 0.5,
    note: 'caught in a door',
  }
  await store.append([
    animal,
    saveWeighIn(store.writing(NOW.instant), animal.animalId, weighIn),
    saveEvent(store.writing(NOW.instant), animal.animalId, event),
  ])
  const kept = () => {
    const [one] = store.record().animals
    if (!one) throw new Error('The animal is gone')
    return one
  }
  return { store, animalId: animal.animalId, kept }
}

test('a case begins with weights, events and a hatch day that is sure, and with nothing else of the record', async () => {
  const { kept } = await withAnimal('case')
  expect(caseOf(kept(), protocol.logic.weight, NOW)).toEqual({
    ...EMPTY_CASE_FILE,
    animal: { name: 'Ember', hatchedOn: '2023-05-01' },
    weighIns: [{ at: '2026-11-18T19:00:00Z', massGrams: 60, scaleStepGrams: 1 }],
    events: [{ at: '2026-11-01T12:00:00Z', kind: 'tail-lost', share: 0.5 }],
  })
})

test('a hatch day that is only likely says nothing of its age', async () => {
  const { kept } = await withAnimal('likely', { hatchedCertainty: 'likely' })
  expect(caseOf(kept(), protocol.logic.weight, NOW).animal).toEqual({ name: 'Ember' })
})

test('an outcome is kept once with all it used, and its new weight goes on record', async () => {
  const { store, animalId, kept } = await withAnimal('outcome')
  const base = caseOf(kept(), protocol.logic.weight, NOW)
  // No concern was chosen, so that it cannot be settled: then only the weight is kept.
  const today = { at: NOW.instant, massGrams: 44, scaleStepGrams: 1 }
  const caseFile = { ...base, weighIns: [...base.weighIns, today] }
  await keepCheck(store, animalId, protocol, { checkId: 'check one', caseFile, now: NOW })
  expect(kept().weighIns.map(({ massGrams }) => massGrams)).toEqual([60, 44])
  expect(kept().assessments).toEqual([])

  const [sign] = protocol.logic.questions.filter(({ phase }) => phase === 'danger')
  if (!sign) throw new Error('There is no danger screen')
  const chosen = sign.options.slice(0, 1)
  const answers = { [sign.id]: { kind: 'several' as const, chosen, rest: 'no' as const, given: NOW.instant } }
  const settled = { checkId: 'check one', caseFile: { ...caseFile, answers }, now: NOW }
  await keepCheck(store, animalId, protocol, settled)
  await keepCheck(store, animalId, protocol, settled)
  expect(kept().weighIns).toHaveLength(2)
  expect(kept().assessments).toMatchObject([
    { urgency: 'now', itemId: 'check one', caseFile: settled.caseFile },
  ])
})

test('nothing is written for an animal that is not on record', async () => {
  const { store } = await withAnimal('gone')
  const before = store.entries().length
  await keepCheck(store, 'nobody', protocol, { checkId: 'check', caseFile: EMPTY_CASE_FILE, now: NOW })
  expect(store.entries()).toHaveLength(before)
})
