import type { Logic } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Fault } from '../../shared/result.ts'
import type { ProtocolStamp } from '../../shared/stored-event.ts'
import { keptUnder, type LogEntry, logOf, outcomeAtOf } from './log.ts'
import { type Appended, type NewEvent, newCaseId, type Store, type StoreStatus } from './store.ts'

/** What happens in a case, as the screens tell it. */
export type Happening =
  | { readonly kind: 'began'; readonly animalId?: string }
  | { readonly kind: 'went-back' | 'assessed' | 'finished' }
  | { readonly kind: 'answered'; readonly entry: LogEntry }

/** The case that was gone on with last, under the protocol of today. */
export interface Earlier {
  readonly log: readonly LogEntry[]
  /** The animal of the record that it was begun for. */
  readonly animalId?: string
  /** When it was gone on with last. */
  readonly lastAt: string
  /** When its outcome was shown, if that is the last that happened in it; not where answers were dropped. */
  readonly outcomeAt?: string
  /** Answers that today's protocol does not take any more. */
  readonly dropped: number
  /** What of it could not be read. */
  readonly faults: readonly Fault[]
}

/** The store as the screens use it: one case under way, written event by event. */
export interface CaseUnderWay {
  /** Writes what happened; rejects with `NotKept` where it is in memory only. */
  readonly append: (happening: Happening, at: Moment) => Promise<void>
  /**
   * Takes up the case that was gone on with last; what is appended next belongs to it. None where there is none, where
   * it was finished without an outcome, or where another was begun meanwhile.
   */
  readonly takeUp: (logic: Pick<Logic, 'questions'>) => Promise<Earlier | undefined>
  /** What is appended next belongs to the case that was taken up, even if another was begun since. */
  readonly goOnWithEarlier: () => Promise<void>
  /** Deletes every case; false where the browser did not. */
  readonly deleteAll: () => Promise<boolean>
  readonly status: Store['status']
  readonly onStatus: Store['onStatus']
  readonly exportText: Store['exportText']
}

/** A case to which events are added. */
interface OpenCase {
  readonly caseId: string
  nextSeq: number
  /** The whole case, for a copy of it. */
  readonly events: NewEvent[]
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
 *
 * @param told ids of the questions that the start page answers; a case with no other answer is not taken up again
 */
export function caseUnderWay(
  store: Store,
  { species, version, hash }: ProtocolStamp,
  told: readonly string[] = [],
): CaseUnderWay {
  const protocol: ProtocolStamp = { species, version, hash }
  let current: OpenCase | undefined
  /** The case that was taken up. */
  let earlier: OpenCase | undefined

  const beginNew = (): OpenCase => {
    current = { caseId: newCaseId(), nextSeq: 0, events: [] }
    return current
  }

  const add = async (to: OpenCase, event: NewEvent): Promise<Appended> => {
    to.events.push(event)
    const appended = await store.append(to.caseId, to.nextSeq, event)
    to.nextSeq += 1
    return appended
  }

  const write = async (event: NewEvent): Promise<Appended> => {
    if (current === undefined || event.kind === 'began') beginNew()
    // A finished case takes no more events: what comes next goes into a copy of it.
    else if (current.events.some(({ kind }) => kind === 'finished'))
      await copy(current.events.filter(({ kind }) => kind !== 'finished'))
    const to = current ?? beginNew()
    if (to.nextSeq === 0 && event.kind !== 'began') await add(to, { kind: 'began', at: event.at, protocol })
    const appended = await add(to, event)
    return appended.kind === 'clash' ? copy(to.events) : appended
  }

  /** Writes events as a new case, with which this tab goes on. */
  const copy = async (all: readonly NewEvent[]): Promise<Appended> => {
    const to = beginNew()
    let appended: Appended = { kind: 'kept' }
    for (const event of all) appended = await add(to, event)
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
    takeUp: logic =>
      inTurn(async () => {
        const found = await store.newest(one =>
          logOf(one.events).some(({ question }) => !told.includes(question)),
        )
        const lastEvent = found?.events.at(-1)
        // A case begun meanwhile goes first.
        if (!found || !lastEvent || current !== undefined) return undefined
        const { kept, dropped } = keptUnder(logOf(found.events), logic)
        const { at } = lastEvent
        const outcomeAt = dropped.length === 0 ? outcomeAtOf(found.events, logic) : undefined
        if (found.finished && outcomeAt === undefined) return undefined
        if (dropped.length === 0)
          current = {
            caseId: found.caseId,
            nextSeq: found.nextSeq,
            events: found.events.map(({ caseId: _caseId, seq: _seq, ...event }) => event),
          }
        else {
          // Going back counts answers, so the case goes on in a copy without those that are gone.
          await copy([
            { kind: 'began', at, protocol },
            ...kept.map((entry): NewEvent => ({ kind: 'answered', at, protocol, entry })),
          ])
          await store.finish(found.caseId, at, protocol)
        }
        earlier = current
        const animalId = found.events.flatMap(one => (one.kind === 'began' ? (one.animalId ?? []) : []))[0]
        return {
          log: kept,
          ...(animalId === undefined ? {} : { animalId }),
          lastAt: at,
          ...(outcomeAt === undefined ? {} : { outcomeAt }),
          dropped: dropped.length,
          faults: found.faults,
        }
      }),
    goOnWithEarlier: () =>
      inTurn(async () => {
        current = earlier ?? current
      }),
    deleteAll: () =>
      inTurn(async () => {
        const isDeleted = await store.deleteAll()
        if (isDeleted) current = earlier = undefined
        return isDeleted
      }),
    status: store.status,
    onStatus: store.onStatus,
    exportText: store.exportText,
  }
}
