import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { type ActorRefFrom, createActor, type SnapshotFrom } from 'xstate'
import type { Moment } from '../../shared/moment.ts'
import type { Protocol } from '../triage/prepare.ts'
import { type LogEntry, logOfThisAnimal } from '../wizard/log.ts'
import { type WizardMachine, wizardMachine } from '../wizard/machine.ts'

/** What happened, as it is kept before the next screen shows. */
export type Happening =
  | { readonly kind: 'began' | 'went-back' | 'assessed' | 'finished' }
  | { readonly kind: 'answered'; readonly entry: LogEntry }

/** The store as the screens see it. `append` rejects where the browser refuses, and holds the entry in memory. */
export interface Store {
  readonly append: (happening: Happening, at: Moment) => Promise<unknown>
  /** The answers of a case that was left unfinished, as far as this protocol still takes them. */
  readonly unfinished?: readonly LogEntry[]
  /** How many answers of it this protocol does not take any more. */
  readonly dropped?: number
  readonly onStatus?: (listener: (status: { readonly kind: string }) => void) => () => void
}

export type Place =
  | { readonly at: 'start' | 'outcome' }
  | { readonly at: 'question'; readonly question: string }

const HELD_IN_MEMORY = 'memory'

type Snapshot = SnapshotFrom<WizardMachine>
interface Run {
  readonly actor: ActorRefFrom<WizardMachine>
  readonly snapshot: Snapshot
}

export interface Wizard {
  readonly place: Place
  readonly context: Snapshot['context']
  /** The browser refused to keep the last entry. */
  readonly refused: boolean
  /** Begins a new case, at a danger screen or at the first; `thisAnimal` says that it is the animal of this guide. */
  readonly begin: (thisAnimal: boolean, question?: string) => Promise<void>
  readonly resume: (log: readonly LogEntry[]) => void
  readonly answer: (entry: LogEntry) => Promise<void>
  readonly back: () => Promise<void>
  readonly change: (question: string) => void
  readonly details: () => void
  readonly skip: () => void
}

function placeOf(snapshot: Snapshot): Place {
  if (snapshot.hasTag('outcome')) return { at: 'outcome' }
  for (const meta of Object.values(snapshot.getMeta())) {
    if (meta?.question !== undefined) return { at: 'question', question: meta.question }
  }
  return { at: 'start' }
}

/** Runs the wizard's chart. Every entry is written to the store before the chart moves on. */
export function useWizard(protocol: Protocol, clock: () => Moment, store?: Store): Wizard {
  const machine = useMemo(() => wizardMachine(protocol), [protocol])
  const fresh = (log: readonly LogEntry[]): Run => {
    const actor = createActor(machine, { input: { now: clock(), log } })
    actor.start()
    return { actor, snapshot: actor.getSnapshot() }
  }
  const [run, setRun] = useState<Run>(() => fresh([]))
  const [refused, setRefused] = useState(false)
  // What is held in memory may be written later, and what was written may be lost.
  useEffect(() => store?.onStatus?.(({ kind }) => setRefused(kind === HELD_IN_MEMORY)), [store?.onStatus])
  const changing = useRef(false)
  const writing = useRef(false)
  const { actor, snapshot } = run
  const { context } = snapshot

  const send = (on: Run['actor'], ...events: Parameters<Run['actor']['send']>[0][]) => {
    for (const event of events) on.send(event)
    setRun({ actor: on, snapshot: on.getSnapshot() })
  }
  const keep = async (happening: Happening): Promise<void> => {
    if (!store) return
    try {
      await store.append(happening, clock())
      setRefused(false)
    } catch {
      setRefused(true)
    }
  }
  /** One thing at a time: a second tap while the first is being written does nothing. */
  const oneAtATime = async (work: () => Promise<void>): Promise<void> => {
    if (writing.current) return
    writing.current = true
    try {
      await work()
    } finally {
      writing.current = false
    }
  }
  const resume = (log: readonly LogEntry[]) => {
    changing.current = false
    const { actor: next } = fresh(log)
    send(next, { type: 'START', now: clock() })
  }
  const isForVet = (id: string | undefined) =>
    protocol.logic.questions.some(one => one.id === id && (one.forHandover || one.phase === 'handover'))
  const isSpecies = ({ question }: LogEntry) =>
    question === protocol.logic.questions[protocol.logic.speciesQuestion]?.id
  const isCare = (entry: LogEntry | undefined) =>
    protocol.logic.questions.some(({ id, phase }) => phase === 'care' && id === entry?.question)

  return {
    place: placeOf(snapshot),
    context,
    refused,
    begin: (thisAnimal, question) =>
      oneAtATime(async () => {
        await keep({ kind: 'began' })
        const said = thisAnimal ? logOfThisAnimal(protocol.logic, clock().instant) : []
        for (const entry of said) await keep({ kind: 'answered', entry })
        changing.current = false
        const { actor: next } = fresh(said)
        send(next, { type: 'START', now: clock(), ...(question === undefined ? {} : { question }) })
      }),
    resume,
    answer: entry =>
      oneAtATime(async () => {
        await keep({ kind: 'answered', entry })
        changing.current = false
        send(actor, { type: 'ANSWER', entry, now: clock() })
        if (actor.getSnapshot().hasTag('outcome') && !snapshot.hasTag('outcome'))
          await keep({ kind: 'assessed' })
      }),
    back: () =>
      oneAtATime(async () => {
        const place = placeOf(snapshot)
        const leavesDetails =
          place.at === 'question' && isForVet(place.question) && !isForVet(context.log.at(-1)?.question)
        if (changing.current || leavesDetails) {
          // Nothing was changed: everything stands as it did.
          resume(context.log)
          return
        }
        if (context.log.every(isSpecies)) {
          setRun(fresh([]))
          return
        }
        // What was tapped on the outcome itself goes with the question before it.
        let left = [...context.log]
        const events: { readonly type: 'BACK'; readonly now: Moment }[] = []
        do {
          events.push({ type: 'BACK', now: clock() })
          left = left.slice(0, -1)
        } while (isCare(context.log[left.length]) && left.length > 0)
        for (const _ of events) await keep({ kind: 'went-back' })
        send(actor, ...events)
      }),
    change: question => {
      changing.current = true
      send(actor, { type: 'GO', question, now: clock() })
    },
    details: () => send(actor, { type: 'DETAILS', now: clock() }),
    skip: () => send(actor, { type: 'SKIP', now: clock() }),
  }
}
