import type { Logic } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Fault } from '../../shared/result.ts'
import type { ProtocolStamp } from '../../shared/stored-event.ts'
import { keptUnder, type LogEntry, logOf } from './log.ts'
import { type Appended, type NewEvent, newCaseId, type Store, type StoreStatus } from './store.ts'

/** What happens in a case, as the screens tell it. */
export type Happening =
  | { readonly kind: 'began' | 'went-back' | 'assessed' | 'finished' }
  | { readonly kind: 'answered'; readonly entry: LogEntry }

/** A case that was left unfinished, under the protocol of today. */
export interface Unfinished {
  readonly log: readonly LogEntry[]
  /** When it was gone on with last. */
  readonly lastAt: string
  /** Answers that today's protocol does not take any more. */
  readonly dropped: number
  /** What of it could not be read. */
  readonly faults: readonly Fault[]
}

/** The store as the screens use it: one case under way, written event by event. */
export interface CaseUnderWay {
  /** Writes what happened; rejects with `NotKept` where it is in memory only. */
  readonly append: (happening: Happening, at: Moment) => Promise<void>
  /** Takes up the case left unfinished, if there is one; what is appended next belongs to it. */
  readonly takeUp: () => Promise<Unfinished | undefined>
  readonly status: Store['status']
  readonly onStatus: Store['onStatus']
  readonly exportText: Store['exportText']
}

/** The browser did not keep it: it is in memory, and is written as soon as it can be. */
export class NotKept extends Error {
  override readonly name = 'NotKept'
  readonly status: StoreStatus

  constructor(status: StoreStatus) {
    super('The browser did not keep the last entry; it is in memory only.')
    this.status = status
  }
}

/**
 * Keeps the place of the case under way. Where another tab has gone on with the same case, this one goes on in a copy
 * of its own, so that neither loses or overwrites anything.
 */
export function caseUnderWay(
  store: Store,
  logic: Pick<Logic, 'species' | 'version' | 'hash' | 'questions'>,
): CaseUnderWay {
  const protocol: ProtocolStamp = { species: logic.species, version: logic.version, hash: logic.hash }
  let caseId: string | undefined
  let nextSeq = 0
  /** The whole case, for a copy of it. */
  let events: NewEvent[] = []

  const beginNew = () => {
    caseId = newCaseId()
    nextSeq = 0
    events = []
  }

  const write = async (event: NewEvent): Promise<Appended> => {
    if (caseId === undefined || event.kind === 'began') beginNew()
    if (nextSeq === 0 && event.kind !== 'began') await write({ kind: 'began', at: event.at, protocol })
    events.push(event)
    const appended = await store.append(caseId ?? '', nextSeq, event)
    nextSeq += 1
    return appended.kind === 'clash' ? copy(events) : appended
  }

  /** Writes events as a new case, with which this tab goes on. */
  const copy = async (all: readonly NewEvent[]): Promise<Appended> => {
    beginNew()
    let appended: Appended = { kind: 'kept' }
    for (const event of all) {
      events.push(event)
      appended = await store.append(caseId ?? '', nextSeq, event)
      nextSeq += 1
    }
    return appended
  }

  let last: Promise<unknown> = Promise.resolve()
  const inTurn = <Value>(work: () => Promise<Value>): Promise<Value> => {
    const turn = last.then(work)
    last = turn.catch(() => undefined)
    return turn
  }

  return {
    append: (happening, at) =>
      inTurn(async () => {
        const appended = await write({ ...happening, at: at.instant, protocol })
        if (appended.kind !== 'kept') throw new NotKept(store.status())
      }),
    takeUp: () =>
      inTurn(async () => {
        const found = await store.newest()
        const lastEvent = found?.events.at(-1)
        // A case begun meanwhile goes first.
        if (!found || !lastEvent || caseId !== undefined) return undefined
        const { kept, dropped } = keptUnder(logOf(found.events), logic)
        const { at } = lastEvent
        if (dropped.length === 0) {
          caseId = found.caseId
          nextSeq = found.nextSeq
          events = found.events.map(({ caseId: _caseId, seq: _seq, ...event }) => event)
        } else {
          // Going back counts answers, so the case goes on in a copy without those that are gone.
          await copy([
            { kind: 'began', at, protocol },
            ...kept.map((entry): NewEvent => ({ kind: 'answered', at, protocol, entry })),
          ])
          await store.finish(found.caseId, at, protocol)
        }
        return { log: kept, lastAt: at, dropped: dropped.length, faults: found.faults }
      }),
    status: store.status,
    onStatus: store.onStatus,
    exportText: store.exportText,
  }
}
