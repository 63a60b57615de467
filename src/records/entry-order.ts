import type { RecordEntry } from '../../shared/record.ts'

type Dated = Pick<RecordEntry, 'written' | 'entryId'>

/** Whether one entry was written before another; of two written at the same instant the lesser `entryId` is first. */
export function comesBefore(one: Dated, other: Dated): boolean {
  if (one.written !== other.written) {
    const [oneMs, otherMs] = [Date.parse(one.written), Date.parse(other.written)]
    // Two ways to write one instant are one instant.
    if (oneMs !== otherMs) return oneMs < otherMs
  }
  return one.entryId < other.entryId
}

/**
 * Every entry of both lists once, in the order they were written. Merging is the same from either side, in any
 * grouping, and again. Of two different entries under one id, which only a damaged or made-up file can hold, the
 * one whose text comes first stands on either side.
 */
export function mergeEntries(one: readonly RecordEntry[], other: readonly RecordEntry[]): RecordEntry[] {
  const byId = new Map<string, RecordEntry>()
  for (const entry of [...one, ...other]) {
    const known = byId.get(entry.entryId)
    if (known === undefined || (known !== entry && textOf(entry) < textOf(known)))
      byId.set(entry.entryId, entry)
  }
  const timed = [...byId.values()].map(entry => ({ entry, ms: Date.parse(entry.written) }))
  timed.sort((a, b) => a.ms - b.ms || (a.entry.entryId < b.entry.entryId ? -1 : 1))
  return timed.map(({ entry }) => entry)
}

/** One text for one value, whatever order its fields were written in. */
export function textOf(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  )
}
