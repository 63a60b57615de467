import type { Fault } from '../../shared/result.ts'
import type { StoredEvent } from '../../shared/stored-event.ts'
import type { readRows } from './rows.ts'

export interface StoredCase {
  readonly caseId: string
  /** In order; damaged events are not among them. */
  readonly events: readonly StoredEvent[]
  readonly finished: boolean
  /** The place of the next event, past damaged ones too. */
  readonly nextSeq: number
  /** One for each event that could not be read. */
  readonly faults: readonly Fault[]
}

/** Rows parted by case, the one gone on with last first. */
export function casesOf(rows: readonly unknown[], read: typeof readRows): StoredCase[] {
  const byCase = new Map<string, { rows: unknown[]; nextSeq: number }>()
  for (const row of rows) {
    const { caseId, seq } = Object(row) as { caseId?: unknown; seq?: unknown }
    const id = String(caseId)
    const found = byCase.get(id) ?? { rows: [], nextSeq: 0 }
    found.rows.push(row)
    if (typeof seq === 'number' && seq >= found.nextSeq) found.nextSeq = Math.floor(seq) + 1
    byCase.set(id, found)
  }
  const cases = [...byCase].map(([caseId, found]): StoredCase => {
    const { events, faults } = read(found.rows)
    events.sort((one, other) => one.seq - other.seq)
    const finished = events.some(event => event.kind === 'finished')
    return { caseId, events, finished, nextSeq: found.nextSeq, faults }
  })
  const lastAt = ({ events }: StoredCase) => Math.max(0, ...events.map(({ at }) => Date.parse(at)))
  return cases.sort((one, other) => lastAt(other) - lastAt(one))
}
