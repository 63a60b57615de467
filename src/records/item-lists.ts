import type { AnimalRecord, RecordEntry } from '../../shared/record.ts'

export type ItemEntry = Extract<RecordEntry, { kind: 'weigh-in' | 'event' | 'reading' | 'assessment' }>

/** What stands about one thing: its last value, and the last entry of all, which may have removed it. */
export interface StandingItem {
  readonly itemId: string
  value?: ItemEntry
  last?: RecordEntry
}

export type Lists = Pick<AnimalRecord, 'weighIns' | 'events' | 'readings' | 'assessments'>

/** One thing ready for its list; made once for each value, so that it keeps its identity. */
interface Ready {
  readonly atMs: number
  readonly weighIn?: Lists['weighIns'][number]
  readonly event?: Lists['events'][number]
  readonly reading?: Lists['readings'][number]
  readonly assessment?: Lists['assessments'][number]
}
const readyOf = new WeakMap<ItemEntry, Ready>()

function ready(entry: ItemEntry): Ready {
  const known = readyOf.get(entry)
  if (known) return known
  const fresh = makeReady(entry)
  readyOf.set(entry, fresh)
  return fresh
}

function makeReady(entry: ItemEntry): Ready {
  const { itemId } = entry
  switch (entry.kind) {
    case 'weigh-in':
      return { atMs: Date.parse(entry.weighIn.at), weighIn: { ...entry.weighIn, itemId } }
    case 'event':
      return { atMs: Date.parse(entry.event.at), event: { ...entry.event, itemId } }
    case 'reading':
      return { atMs: Date.parse(entry.reading.at), reading: { ...entry.reading, itemId } }
    case 'assessment':
      return { atMs: Date.parse(entry.assessment.at), assessment: { ...entry.assessment, itemId } }
  }
}

/** The lists of one animal in order of time, then by name; a list that is as it was before keeps its identity. */
export function listsOf(items: Iterable<StandingItem>, before: Lists | undefined): Lists {
  const standing: { itemId: string; ready: Ready }[] = []
  for (const { itemId, value, last } of items) {
    if (value && last?.kind !== 'removed') standing.push({ itemId, ready: ready(value) })
  }
  standing.sort((one, other) => one.ready.atMs - other.ready.atMs || (one.itemId < other.itemId ? -1 : 1))
  const list = <Name extends 'weighIn' | 'event' | 'reading' | 'assessment'>(name: Name) =>
    standing.flatMap(({ ready }) => ready[name] ?? [])
  return {
    weighIns: sameOr(before?.weighIns, list('weighIn')),
    events: sameOr(before?.events, list('event')),
    readings: sameOr(before?.readings, list('reading')),
    assessments: sameOr(before?.assessments, list('assessment')),
  }
}

function sameOr<Value>(before: readonly Value[] | undefined, now: readonly Value[]): readonly Value[] {
  const isSame = before?.length === now.length && before.every((value, at) => value === now[at])
  return before && isSame ? before : now
}
