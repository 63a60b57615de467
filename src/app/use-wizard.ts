import { useEffect, useRef, useState } from 'preact/hooks'
import type { CaseFile } from '../../shared/case-file.ts'
import type { DangerPart } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { type LogEntry, logOfStart, type Told } from '../wizard/log.ts'
import { type Engine, lineRun, type Place, type Run } from './run.ts'

/** What happened, as it is kept before the next screen shows. */
export type Happening =
  | { readonly kind: 'began'; readonly animalId?: string }
  | { readonly kind: 'went-back' | 'assessed' | 'finished' }
  | { readonly kind: 'answered'; readonly entry: LogEntry }

/** The case that was gone on with last, as far as this protocol still takes its answers. */
export interface Earlier {
  readonly log: readonly LogEntry[]
  /** The animal of the record that it was begun for. */
  readonly animalId?: string
  /** How many answers of it this protocol does not take any more. */
  readonly dropped: number
  /** When its outcome was shown, if that is the last that happened in it. */
  readonly outcomeAt?: string
}

/** The store as the screens see it. `append` rejects where the browser refuses, and holds the entry in memory. */
export interface Store {
  readonly append: (happening: Happening, at: Moment) => Promise<unknown>
  readonly earlier?: Earlier
  /** What is appended next belongs to the earlier case again. */
  readonly goOnWithEarlier?: () => Promise<void>
  readonly onStatus?: (listener: (status: { readonly kind: string }) => void) => () => void
  /** Everything kept, as the text of a file. */
  readonly exportText?: () => Promise<string>
  /** Deletes everything kept; false where the browser did not. */
  readonly deleteAll?: () => Promise<boolean>
}

const HELD_IN_MEMORY = 'memory'

export interface Wizard {
  readonly place: Place
  readonly context: Run['context']
  /** The browser refused to keep the last entry. */
  readonly refused: boolean
  /** Begins a new case with what the start page has told, at a danger screen or at the first; `of` an animal of the record. */
  readonly begin: (told: Told, question?: string, of?: string) => Promise<void>
  /** The animal of the record that the case is for. */
  readonly of: string | undefined
  /** Goes on with a log: asks again what has lapsed. */
  readonly resume: (log: readonly LogEntry[]) => void
  /** The case that was found in the store, until it is deleted. */
  readonly earlier: Earlier | undefined
  /** Goes on with that case, or shows its outcome as it was. */
  readonly takeUp: (earlier: Earlier) => Promise<void>
  /** Whether there is a question or an outcome to go back from. */
  readonly isUnderWay: () => boolean
  readonly answer: (entry: LogEntry) => Promise<void>
  readonly back: () => Promise<void>
  readonly change: (question: string) => void
  readonly details: () => void
  readonly skip: () => void
  /** Deletes all that is kept, and leaves the case. */
  readonly deleteAll: () => Promise<boolean>
}

export interface WizardOptions {
  readonly part: DangerPart
  /** Runs the case once it is there; until then the danger screens run alone. */
  readonly engine: Engine | undefined
  readonly clock: () => Moment
  readonly store: Store | undefined
  /** Called when another screen of the case comes. */
  readonly onForward: () => void
  /** What the record knows of an animal, once it is there. */
  readonly baseOf: (animalId: string) => CaseFile | undefined
  /** Resolves when the record is there, or is not to be had. */
  readonly recordRead: () => Promise<unknown>
}

/** Runs a case. Every entry is written to the store before the next screen shows. */
export function useWizard({
  part,
  engine,
  clock,
  store,
  onForward,
  baseOf,
  recordRead,
}: WizardOptions): Wizard {
  const [shown, setShown] = useState<Run>(() => lineRun(part, [], clock()))
  // What was done last counts, even if it is not on the screen yet.
  const latest = useRef(shown)
  const setRun = (next: Run) => {
    latest.current = next
    setShown(next)
  }
  const [refused, setRefused] = useState(false)
  const [isDeleted, setDeleted] = useState(false)
  // What is held in memory may be written later, and what was written may be lost.
  useEffect(() => store?.onStatus?.(({ kind }) => setRefused(kind === HELD_IN_MEMORY)), [store?.onStatus])
  const earlier = isDeleted ? undefined : store?.earlier
  const hasBegun = useRef(false)
  const checked = useRef<string | undefined>(undefined)
  const base = () => (checked.current === undefined ? undefined : baseOf(checked.current))
  const changing = useRef(false)
  const keep = async (happening: Happening): Promise<void> => {
    if (!store) return
    try {
      await store.append(happening, clock())
      setRefused(false)
    } catch {
      setRefused(true)
    }
  }
  const writing = useRef<Promise<void> | undefined>(undefined)
  const inTurn = async (work: () => Promise<void>): Promise<void> => {
    const turn = work()
    writing.current = turn.catch(() => {})
    await turn.finally(() => {
      writing.current = undefined
    })
  }
  /** One thing at a time: a second tap while the first is being written does nothing. */
  const oneAtATime = async (work: () => Promise<void>): Promise<void> => {
    if (!writing.current) await inTurn(work)
  }
  const show = async (next: Run): Promise<void> => {
    const before = latest.current.place.at
    setRun(next)
    if (next.place.at === 'outcome' && before !== 'outcome') await keep({ kind: 'assessed' })
  }
  const opened = (log: readonly LogEntry[], now = clock()) =>
    engine?.open(log, now, undefined, base()) ?? lineRun(part, log, now)

  // The chart takes over where the danger screens end: it replays what was answered.
  useEffect(() => {
    const { place, context } = latest.current
    if (engine && place.at === 'awaited') void show(engine.open(context.log, clock(), undefined, base()))
  })

  const resume = (log: readonly LogEntry[]) => {
    changing.current = false
    void show(opened(log))
  }
  const isTold = ({ question }: LogEntry) =>
    question === part.thisAnimal?.question || question === part.concernQuestion

  return {
    place: shown.place,
    context: shown.context,
    refused,
    of: checked.current,
    begin: (told, question, of) =>
      oneAtATime(async () => {
        const { place, context } = latest.current
        // A case that was found is still the one at hand, unless one was begun since.
        const found = hasBegun.current ? undefined : earlier?.outcomeAt
        const isOver = context.log.length > 0 ? place.at === 'outcome' : found !== undefined
        if (isOver) await keep({ kind: 'finished' })
        hasBegun.current = true
        checked.current = of
        await keep({ kind: 'began', ...(of === undefined ? {} : { animalId: of }) })
        const now = clock()
        const log = logOfStart(part, told, now.instant)
        for (const entry of log) await keep({ kind: 'answered', entry })
        changing.current = false
        const wanted = question === undefined ? {} : { question }
        await show(
          engine?.open(log, now, question, base()) ??
            lineRun(part, log, now).after({ type: 'START', now, ...wanted }),
        )
        onForward()
      }),
    resume: log => {
      resume(log)
      onForward()
    },
    earlier,
    takeUp: ({ log, outcomeAt, animalId }) =>
      oneAtATime(async () => {
        checked.current = animalId
        if (animalId !== undefined) await recordRead()
        await store?.goOnWithEarlier?.()
        const then = outcomeAt === undefined ? undefined : opened(log, { ...clock(), instant: outcomeAt })
        if (then?.place.at === 'outcome') setRun(then)
        else resume(log)
        onForward()
      }),
    isUnderWay: () => latest.current.place.at !== 'start',
    answer: entry =>
      oneAtATime(async () => {
        await keep({ kind: 'answered', entry })
        changing.current = false
        const { place } = latest.current
        // A chart that came meanwhile takes over at the end of the danger screens.
        const next = latest.current.after({ type: 'ANSWER', entry, now: clock() })
        await show(
          next.place.at === 'awaited' && engine
            ? engine.open(next.context.log, clock(), undefined, base())
            : next,
        )
        if (next.place.at !== 'outcome' || place.at !== 'outcome') onForward()
      }),
    back: async () => {
      while (writing.current) await writing.current
      await inTurn(async () => {
        const { place, context } = latest.current
        const leavesDetails =
          place.at === 'question' &&
          engine?.isForVet(place.question) === true &&
          !engine.isForVet(context.log.at(-1)?.question)
        if (changing.current || leavesDetails) {
          // Nothing was changed: everything stands as it did.
          resume(context.log)
          return
        }
        if (context.log.every(isTold)) {
          setRun(lineRun(part, [], clock()))
          return
        }
        // What was tapped on the outcome itself goes with the question before it.
        const events: { readonly type: 'BACK'; readonly now: Moment }[] = []
        let left = context.log.length
        do {
          events.push({ type: 'BACK', now: clock() })
          left -= 1
        } while (left > 0 && engine?.isCare(context.log[left]?.question))
        for (const _ of events) await keep({ kind: 'went-back' })
        setRun(latest.current.after(...events))
      })
    },
    change: question => {
      changing.current = true
      const { by, context } = latest.current
      const run = by === 'line' ? opened(context.log) : latest.current
      setRun(run.after({ type: 'GO', question, now: clock() }))
      onForward()
    },
    details: () => {
      setRun(latest.current.after({ type: 'DETAILS', now: clock() }))
      onForward()
    },
    skip: () => {
      setRun(latest.current.after({ type: 'SKIP', now: clock() }))
      onForward()
    },
    deleteAll: async () => {
      const isDone = (await store?.deleteAll?.()) ?? true
      if (isDone) {
        setRun(lineRun(part, [], clock()))
        setDeleted(true)
      }
      return isDone
    },
  }
}
