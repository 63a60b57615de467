import { type Issue, valueAt } from '../../shared/parse-faults.ts'
import { type Fault, failure, type Result, shown, success } from '../../shared/result.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'
import { parseEvent } from './parse-stored.ts'

/** Reads one row of the store, or says what is wrong with it; a row may have been damaged or come from anywhere. */
export function readRow(row: unknown): Result<StoredEvent> {
  const parsed = parseEvent(row)
  if ('value' in parsed) return success(parsed.value)
  const place = placeOf(row)
  return failure(
    parsed.issues.map(issue => {
      const field = [place, ...issue.path.map(String)].join('.')
      return { field, value: shown(valueAt(row, issue.path)), accepted: acceptedBy(issue) }
    }),
  )
}

/** Every row that can be read, and a fault for each that can not. */
export function readRows(rows: readonly unknown[]): { events: StoredEvent[]; faults: Fault[] } {
  const events: StoredEvent[] = []
  const faults: Fault[] = []
  for (const row of rows) {
    const read = readRow(row)
    if (read.ok) events.push(read.value)
    else faults.push(...read.faults)
  }
  return { events, faults }
}

function placeOf(row: unknown): string {
  const caseId = valueAt(row, ['caseId'])
  const seq = valueAt(row, ['seq'])
  return `events.${typeof caseId === 'string' ? caseId : '?'}.${typeof seq === 'number' ? seq : '?'}`
}

/** What would have been accepted; the schema library's own messages are not part of the app. */
function acceptedBy(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `a value of type ${issue.expected}`
    case 'invalid_value':
      return `one of ${issue.values.map(String).join(', ')}`
    case 'invalid_format':
      return `text in the form of a ${issue.format}`
    case 'unrecognized_keys':
      return `no field ${issue.keys.join(', ')}`
    case 'too_small':
      return `at least ${issue.minimum}`
    case 'too_big':
      return `at most ${issue.maximum}`
    case 'invalid_union':
      return 'a known kind'
    default:
      return 'an event as this version writes it'
  }
}
