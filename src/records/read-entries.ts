import { faultsOf } from '../../shared/parse-faults.ts'
import type { RecordEntry } from '../../shared/record.ts'
import type { Fault } from '../../shared/result.ts'
import { parseEntry } from './parse-stored.ts'
import { isPlainWeighIn } from './plain-weigh-in.ts'

/** Every entry that can be read, and a fault for each part of one that can not, under the field `entries.<id>`. */
export function readEntries(rows: readonly unknown[]): { entries: RecordEntry[]; faults: Fault[] } {
  const entries: RecordEntry[] = []
  const faults: Fault[] = []
  for (const row of rows) {
    if (isPlainWeighIn(row)) {
      entries.push(row)
      continue
    }
    const parsed = parseEntry(row)
    if ('value' in parsed) {
      entries.push(parsed.value)
      continue
    }
    const { entryId } = Object(row) as { entryId?: unknown }
    const place = `entries.${typeof entryId === 'string' ? entryId : '?'}`
    for (const fault of faultsOf(parsed, row, ''))
      faults.push({ ...fault, field: [place, fault.field].filter(Boolean).join('.') })
  }
  return { entries, faults }
}
