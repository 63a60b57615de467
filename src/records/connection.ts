import { type Database, openDatabase } from './database.ts'

/** Why something is in memory only. */
export type WhyMemory =
  /** The browser gives no store: private window, settings, an error of its own. */
  | 'refused'
  /** Another tab of an older version holds the store. */
  | 'blocked'
  /** The connection went while the page was open: cleared, deleted or cut off. */
  | 'lost'
  | 'full'
  /** A newer version of the app has changed the store: this page must be loaded again. */
  | 'newer-version'

export type StoreStatus =
  | { readonly kind: 'opening' }
  /** Everything is written. `again` after a time in which it was not. */
  | { readonly kind: 'kept'; readonly again: boolean }
  | { readonly kind: 'memory'; readonly why: WhyMemory }

export interface StoreOptions {
  /** How often the browser is asked again while something is in memory only. */
  readonly retryAfterMs?: number
  /** How long an open may take before the page goes on without it. */
  readonly openWithinMs?: number
}

/** The database with what goes wrong with it: what the stores share. */
export interface Connection {
  readonly status: () => StoreStatus
  /** Calls back at every change of the status until the returned function is called. */
  readonly onStatus: (listener: (status: StoreStatus) => void) => () => void
  /** Does one piece of work after the other, in the order asked. */
  readonly inTurn: <Value>(work: () => Promise<Value>) => Promise<Value>
  /**
   * Does work with the database, once more with a new connection where the old one was cut off under it. Undefined
   * where the browser refuses: the status then says why, and `writeAgain` is called until everything is told kept.
   */
  readonly use: <Value>(
    work: (database: Database) => Promise<Value>,
  ) => Promise<{ readonly value: Value } | undefined>
  /** Says that everything is written. */
  readonly tellKept: () => void
  /** Lets go of the database. */
  readonly close: () => void
}

/** How long an open is waited for once the page has gone on without it. */
const WAIT_AGAIN_MS = 250

/** @param writeAgain writes what is in memory only, in its turn */
export function connectTo(
  name: string,
  { retryAfterMs = 5000, openWithinMs = 3000 }: StoreOptions,
  writeAgain: () => Promise<unknown>,
): Connection {
  const listeners = new Set<(status: StoreStatus) => void>()
  let status: StoreStatus = { kind: 'opening' }
  let database: Database | undefined
  let opening: Promise<Database> | undefined
  let retry: ReturnType<typeof setTimeout> | undefined
  let closed = false

  const tell = (next: StoreStatus) => {
    if (JSON.stringify(next) === JSON.stringify(status)) return
    status = next
    for (const listener of listeners) listener(status)
  }
  const goOnInMemory = (why: WhyMemory, retryMs = retryAfterMs) => {
    if (closed) return
    tell({ kind: 'memory', why })
    clearTimeout(retry)
    retry = setTimeout(() => void inTurn(writeAgain), retryMs)
  }
  const onGone = () => {
    database = undefined
    goOnInMemory('lost', 0)
  }

  const connect = async (): Promise<Database> => {
    if (database) return database
    // An open that hangs goes on; its turn comes when it is through, and until then nobody waits for it again.
    opening ??= openDatabase(name, { onBlocked: () => goOnInMemory('blocked'), onGone })
      .then(opened => {
        if (closed) opened.close()
        database = opened
        if (status.kind === 'memory') goOnInMemory(status.why, 0)
        return opened
      })
      .finally(() => {
        opening = undefined
      })
    return within(opening, status.kind === 'memory' ? Math.min(openWithinMs, WAIT_AGAIN_MS) : openWithinMs)
  }

  let last: Promise<unknown> = Promise.resolve()
  const inTurn = <Value>(work: () => Promise<Value>): Promise<Value> => {
    const turn = last.then(work)
    last = turn.catch(() => undefined)
    return turn
  }

  return {
    status: () => status,
    onStatus: listener => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    inTurn,
    use: async work => {
      for (const isLastTry of [false, true]) {
        try {
          return { value: await work(await connect()) }
        } catch (error) {
          const why = whyOf(error, database !== undefined)
          database?.close()
          database = undefined
          // A connection that was cut off under us: one more try with a new one.
          if (why === 'lost' && !isLastTry) continue
          goOnInMemory(why)
        }
        return undefined
      }
      return undefined
    },
    tellKept: () => {
      clearTimeout(retry)
      if (status.kind !== 'kept') tell({ kind: 'kept', again: status.kind === 'memory' })
    },
    close: () => {
      closed = true
      clearTimeout(retry)
      listeners.clear()
      database?.close()
      database = undefined
    },
  }
}

class TookTooLong extends Error {
  override readonly name = 'TookTooLong'
}

function within<Value>(work: Promise<Value>, limitMs: number): Promise<Value> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new TookTooLong()), limitMs)
    work.then(resolve, reject).finally(() => clearTimeout(timer))
  })
}

function whyOf(error: unknown, wasOpen: boolean): WhyMemory {
  if (error instanceof TookTooLong) return 'blocked'
  const { name } = Object(error) as { name?: unknown }
  if (name === 'QuotaExceededError') return 'full'
  if (name === 'VersionError') return 'newer-version'
  return wasOpen ? 'lost' : 'refused'
}
