import type { ProtocolStamp, StoredEvent } from '../../shared/stored-event.ts'
import type { LogEntry } from '../../src/records/log.ts'
import type { NewEvent } from '../../src/records/store.ts'

export const PROTOCOL: ProtocolStamp = { species: 'newt', version: '1', hash: 'abc' }

/** Minute `minute` of a night. */
export const at = (minute: number) => new Date(Date.UTC(2026, 10, 25, 2, minute)).toISOString()

export const choice = (question: string, option: string, minute = 0): LogEntry => ({
  question,
  answer: { kind: 'choice', choice: option, given: at(minute) },
})

export const began = (minute = 0): NewEvent => ({ kind: 'began', at: at(minute), protocol: PROTOCOL })
export const answered = (entry: LogEntry, minute = 0): NewEvent => ({
  kind: 'answered',
  at: at(minute),
  protocol: PROTOCOL,
  entry,
})

/** Events of one case, numbered as they stand. */
export const caseOf = (...events: readonly NewEvent[]): StoredEvent[] =>
  events.map((event, seq) => ({ ...event, caseId: 'one', seq }))
