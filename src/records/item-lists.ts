import type { AnimalRecord, RecordEntry } from '../../shared/record.ts'

export type ItemEntry = Extract<RecordEntry, { kind: 'weigh-in' | 'event' | 'reading' | 'assessment' }>

/** What stands about one thing: its last value, and the last entry of all, which may have removed it. */
export interface StandingItem {
  readonly itemId: string
  value?: ItemEntry
  last?: RecordEntry
  /** The value as its list shows it; made once for each value, so that it keeps its identity. */
  ready?: Ready
}

export type Lists = Pick<AnimalRecord, 'weighIns' | 'events' | 'readings' | 'assessments'>

type Ready =
  | Timed<'weighIns', Lists['weighIns'][number]>
  | Timed<'events', Lists['events'][number]>
  | Timed<'readings', Lists['readings'][number]>
  | Timed<'assessments', Lists['assessments'][number]>
interface Timed<Name extends keyof Lists, Value> {
  readonly list: Name
  readonly atMs: number
  readonly value: Value
  readonly entry: ItemEntry
}

/** The lists of one animal in order of time, then by name; a list that is as it was before keeps its identity. */
export function listsOf(items: Iterable<StandingItem>, before: Lists | undefined): Lists {
  const standing: Ready[] = []
  for (const item of items)
    if (item.value && item.last?.kind !== 'removed') standing.push(ready(item, item.value))
  standing.sort(byTime)
  const weighIns: Lists['weighIns'][number][] = []
  const events: Lists['events'][number][] = []
  const readings: Lists['readings'][number][] = []
  const assessments: Lists['assessments'][number][] = []
  for (const one of standing) {
    if (one.list === 'weighIns') weighIns.push(one.value)
    else if (one.list === 'events') events.push(one.value)
    else if (one.list === 'readings') readings.push(one.value)
    else assessments.push(one.value)
  }
  return {
    weighIns: sameOr(before?.weighIns, weighIns),
    events: sameOr(before?.events, events),
    readings: sameOr(before?.readings, readings),
    assessments: sameOr(before?.assessments, assessments),
  }
}

function byTime(one: Ready, other: Ready): number {
  return one.atMs - other.atMs || (one.value.itemId < other.value.itemId ? -1 : 1)
}

function ready(item: StandingItem, value: ItemEntry): Ready {
  if (item.ready?.entry === value) return item.ready
  const fresh = makeReady(value)
  item.ready = fresh
  return fresh
}

function makeReady(entry: ItemEntry): Ready {
  const { itemId } = entry
  switch (entry.kind) {
    case 'weigh-in':
      return { list: 'weighIns', ...timed(entry, { ...entry.weighIn, itemId }) }
    case 'event':
      return { list: 'events', ...timed(entry, { ...entry.event, itemId }) }
    case 'reading':
      return { list: 'readings', ...timed(entry, { ...entry.reading, itemId }) }
    case 'assessment':
      return { list: 'assessments', ...timed(entry, { ...entry.assessment, itemId }) }
  }
}

function timed<Value extends { readonly at: string }>(entry: ItemEntry, value: Value) {
  return { atMs: Date.parse(value.at), value, entry }
}

function sameOr<Value>(before: readonly Value[] | undefined, now: readonly Value[]): readonly Value[] {
  const isSame = before?.length === now.length && before.every((value, at) => value === now[at])
  return before && isSame ? before : now
}
