import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Question } from '../../shared/compiled.ts'
import { logOf } from '../../src/records/log.ts'
import { openStore, type Store } from '../../src/records/store.ts'
import { caseUnderWay, NotKept } from '../../src/records/under-way.ts'
import { at, choice } from './fixtures.ts'

const question = (id: string, ...options: readonly string[]): Question => ({
  id,
  kind: 'choice',
  phase: 'common',
  fact: 0,
  options,
  signs: options.map(() => null),
  staysGoodHours: 12,
  cannotTell: false,
  cannotMeasure: false,
  forHandover: false,
})
const LOGIC = {
  species: 'newt',
  version: '1',
  hash: 'a',
  questions: [question('skin', 'pale', 'dark'), question('eyes', 'open')],
}
const moment = (minute: number) => ({ instant: at(minute), zone: 'UTC' })
const skin = { kind: 'answered', entry: choice('skin', 'pale') } as const
const eyes = { kind: 'answered', entry: choice('eyes', 'open') } as const

let stores: Store[] = []
function visit(logic = LOGIC) {
  const store = openStore('test', { retryAfterMs: 20, openWithinMs: 100 })
  stores.push(store)
  return { store, underWay: caseUnderWay(store, logic) }
}

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
afterEach(() => {
  for (const store of stores) store.close()
  stores = []
  vi.restoreAllMocks()
})

describe('the case under way', () => {
  test('is taken up at the next visit and gone on with as the same case', async () => {
    const first = visit()
    await first.underWay.append({ kind: 'began' }, moment(0))
    await first.underWay.append(skin, moment(1))
    const { store, underWay } = visit()
    expect(await underWay.takeUp(LOGIC)).toEqual({ log: [skin.entry], lastAt: at(1), dropped: 0, faults: [] })
    await underWay.append(eyes, moment(2))
    await underWay.append({ kind: 'went-back' }, moment(3))
    const cases = await store.cases()
    expect(cases.map(({ events }) => events.map(({ kind }) => kind))).toEqual([
      ['began', 'answered', 'answered', 'went-back'],
    ])
  })

  test('there is none on the first visit, nor after the last was finished', async () => {
    const { underWay } = visit()
    expect(await underWay.takeUp(LOGIC)).toBeUndefined()
    await underWay.append(skin, moment(0))
    await underWay.append({ kind: 'finished' }, moment(1))
    expect(await visit().underWay.takeUp(LOGIC)).toBeUndefined()
  })

  test('one whose outcome was shown is offered with the time of it, finished or not', async () => {
    const { underWay } = visit()
    await underWay.append(skin, moment(0))
    await underWay.append({ kind: 'assessed' }, moment(1))
    expect(await visit().underWay.takeUp(LOGIC)).toMatchObject({ log: [skin.entry], outcomeAt: at(1) })
    await underWay.append({ kind: 'finished' }, moment(2))
    expect(await visit().underWay.takeUp(LOGIC)).toMatchObject({ log: [skin.entry], outcomeAt: at(1) })
  })

  test('an answer or a step back after the outcome makes it unfinished again', async () => {
    const { underWay } = visit()
    await underWay.append(skin, moment(0))
    await underWay.append(eyes, moment(0))
    await underWay.append({ kind: 'assessed' }, moment(1))
    await underWay.append({ kind: 'went-back' }, moment(2))
    const again = await visit().underWay.takeUp(LOGIC)
    expect(again).toMatchObject({ log: [skin.entry] })
    expect(again).not.toHaveProperty('outcomeAt')
  })

  test('what comes after a finished case goes into a copy of it', async () => {
    const first = visit()
    await first.underWay.append(skin, moment(0))
    await first.underWay.append({ kind: 'assessed' }, moment(1))
    await first.underWay.append({ kind: 'finished' }, moment(2))
    const { store, underWay } = visit()
    await underWay.takeUp(LOGIC)
    await underWay.append(eyes, moment(3))
    const cases = await store.cases()
    expect(cases.map(({ events }) => events.map(({ kind }) => kind))).toEqual([
      ['began', 'answered', 'assessed', 'answered'],
      ['began', 'answered', 'assessed', 'finished'],
    ])
  })

  test('is gone on with as itself after another was begun', async () => {
    await visit().underWay.append(skin, moment(0))
    const { store, underWay } = visit()
    await underWay.takeUp(LOGIC)
    await underWay.append({ kind: 'began' }, moment(1))
    await underWay.goOnWithEarlier()
    await underWay.append(eyes, moment(2))
    const cases = await store.cases()
    expect(cases.map(({ events }) => events.map(({ kind }) => kind))).toEqual([
      ['began', 'answered', 'answered'],
      ['began'],
    ])
  })

  test('is the last in which something was answered that the start page does not tell', async () => {
    await visit().underWay.append(skin, moment(0))
    await visit().underWay.append(eyes, moment(1))
    const { store } = visit()
    expect(await caseUnderWay(store, LOGIC, ['eyes']).takeUp(LOGIC)).toMatchObject({ log: [skin.entry] })
  })

  test('is deleted with every other, and the next one is a new one', async () => {
    const { store, underWay } = visit()
    await underWay.append(skin, moment(0))
    expect(await underWay.deleteAll()).toBe(true)
    expect(await store.cases()).toEqual([])
    await underWay.append(eyes, moment(1))
    expect(await visit().underWay.takeUp(LOGIC)).toMatchObject({ log: [eyes.entry] })
  })

  test('two tabs on one case part into two, and nothing is lost', async () => {
    const one = visit()
    await one.underWay.append(skin, moment(0))
    const other = visit()
    await other.underWay.takeUp(LOGIC)
    await one.underWay.append(eyes, moment(1))
    await other.underWay.append({ kind: 'answered', entry: choice('skin', 'dark') }, moment(2))
    await other.underWay.append(eyes, moment(3))
    const logs = (await one.store.cases()).map(({ events }) => logOf(events).map(entry => entry.answer))
    const answers = (...options: readonly string[]) =>
      options.map(option => ({ kind: 'choice', choice: option, given: at(0) }))
    expect(logs).toEqual([answers('dark', 'open'), answers('pale', 'open')])
  })

  test('a newer protocol keeps what it still takes, and going back counts those', async () => {
    const first = visit()
    await first.underWay.append(skin, moment(0))
    await first.underWay.append(eyes, moment(1))
    const newer = { ...LOGIC, version: '2', hash: 'b', questions: [question('skin', 'pale')] }
    const second = visit(newer)
    expect(await second.underWay.takeUp(newer)).toMatchObject({ log: [skin.entry], dropped: 1 })
    await second.underWay.append({ kind: 'went-back' }, moment(2))
    // Nothing is left of it to go on with.
    expect(await visit(newer).underWay.takeUp(newer)).toBeUndefined()
  })

  test('what is in memory only is said', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('no', 'SecurityError')
    })
    const { underWay } = visit()
    expect(await underWay.takeUp(LOGIC)).toBeUndefined()
    await expect(underWay.append(skin, moment(0))).rejects.toThrow(NotKept)
    expect(underWay.status()).toEqual({ kind: 'memory', why: 'refused' })
  })
})
