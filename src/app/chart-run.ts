import type { Protocol } from '../triage/prepare.ts'
import { wizardChart } from '../wizard/chart.ts'
import { chartWalk, type Standpoint } from '../wizard/walk.ts'
import type { Engine, Place, Run } from './run.ts'

function placeOf({ states }: Standpoint): Place {
  const state = states.at(-1)
  if (state?.tags?.includes('outcome')) return { at: 'outcome' }
  return state?.meta ? { at: 'question', question: state.meta.question } : { at: 'start' }
}

/** Runs the wizard's chart. */
export function engineOf(protocol: Protocol): Engine {
  const walk = chartWalk(wizardChart(protocol))
  const run = (standpoint: Standpoint): Run => ({
    by: 'chart',
    place: placeOf(standpoint),
    context: standpoint.context,
    after: (...events) => run(events.reduce(walk.after, standpoint)),
  })
  const { questions } = protocol.logic
  return {
    open: (log, now, question, base) => {
      const start = walk.begin({ now, log, ...(base ? { base } : {}) })
      return run(walk.after(start, { type: 'START', now, ...(question === undefined ? {} : { question }) }))
    },
    isForVet: id => questions.some(one => one.id === id && (one.forHandover || one.phase === 'handover')),
    isCare: id => questions.some(one => one.id === id && one.phase === 'care'),
  }
}
