import { type ActorRefFrom, createActor } from 'xstate'
import type { Protocol } from '../triage/prepare.ts'
import { type WizardMachine, wizardMachine } from '../wizard/machine.ts'
import type { Engine, Place, Run } from './run.ts'

type Actor = ActorRefFrom<WizardMachine>

function placeOf(snapshot: ReturnType<Actor['getSnapshot']>): Place {
  if (snapshot.hasTag('outcome')) return { at: 'outcome' }
  for (const meta of Object.values(snapshot.getMeta())) {
    if (meta?.question !== undefined) return { at: 'question', question: meta.question }
  }
  return { at: 'start' }
}

/** Runs the wizard's chart. */
export function engineOf(protocol: Protocol): Engine {
  const machine = wizardMachine(protocol)
  const run = (actor: Actor): Run => {
    const snapshot = actor.getSnapshot()
    return {
      by: 'chart',
      place: placeOf(snapshot),
      context: snapshot.context,
      after: (...events) => {
        for (const event of events) actor.send(event)
        return run(actor)
      },
    }
  }
  const { questions } = protocol.logic
  return {
    open: (log, now, question, base) => {
      const actor = createActor(machine, { input: { now, log, ...(base ? { base } : {}) } })
      actor.start()
      actor.send({ type: 'START', now, ...(question === undefined ? {} : { question }) })
      return run(actor)
    },
    isForVet: id => questions.some(one => one.id === id && (one.forHandover || one.phase === 'handover')),
    isCare: id => questions.some(one => one.id === id && one.phase === 'care'),
  }
}
