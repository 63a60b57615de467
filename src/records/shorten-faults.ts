import type { Fault } from '../../shared/result.ts'

/** So many faults of one file are named one by one. */
const MOST_FAULTS = 20

/** The first faults of a file, and one that counts the rest. @param accepted what the whole file should have been */
export function shortenFaults(faults: readonly Fault[], accepted: string): readonly Fault[] {
  const rest = faults.length - MOST_FAULTS
  if (rest <= 0) return faults
  return [...faults.slice(0, MOST_FAULTS), { field: 'file', value: `${rest} more faults`, accepted }]
}
