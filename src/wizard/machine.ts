import { assign, setup } from 'xstate'
import type { Protocol } from '../triage/prepare.ts'
import {
  type ChartAction,
  type ChartGuard,
  type WizardContext,
  type WizardEvent,
  type WizardInput,
  wizardChart,
} from './chart.ts'

/**
 * The wizard's chart as a machine of the statechart library: what the tests, the proof and the bench walk, and what
 * src/wizard/walk.ts is held against. The page itself does without the library.
 */
export function wizardMachine(protocol: Protocol) {
  const { root, contextOf, holds, changed } = wizardChart(protocol)
  type Given = { readonly context: WizardContext; readonly event: WizardEvent }
  const guard = (type: Exclude<ChartGuard, { params: object }>['type']) => (given: Given) =>
    holds({ type }, given.context, given.event)
  const action = (type: Exclude<ChartAction, { params: object }>['type']) =>
    assign<WizardContext, WizardEvent, undefined, WizardEvent, never>(({ context, event }) =>
      changed({ type }, context, event),
    )
  return setup({
    types: {
      context: {} as WizardContext,
      events: {} as WizardEvent,
      input: {} as WizardInput,
      tags: {} as 'start' | 'question' | 'outcome',
      meta: {} as { readonly question: string },
    },
    guards: {
      passes: ({ context, event }, params: { readonly question: number }) =>
        holds({ type: 'passes', params }, context, event),
      passesForVet: ({ context, event }, params: { readonly question: number }) =>
        holds({ type: 'passesForVet', params }, context, event),
      answers: ({ context, event }, params: { readonly question: string }) =>
        holds({ type: 'answers', params }, context, event),
      wants: ({ context, event }, params: { readonly question: string }) =>
        holds({ type: 'wants', params }, context, event),
      dangerFound: guard('dangerFound'),
      notSettled: guard('notSettled'),
      dangerOpen: guard('dangerOpen'),
      hasAnswers: guard('hasAnswers'),
    },
    actions: {
      store: action('store'),
      dropLast: action('dropLast'),
      want: action('want'),
      tick: action('tick'),
      letGo: action('letGo'),
      skip: assign(({ context, event }, params: { readonly question: string }) =>
        changed({ type: 'skip', params }, context, event),
      ),
    },
  }).createMachine({ ...root, context: ({ input }) => contextOf(input) })
}

export type WizardMachine = ReturnType<typeof wizardMachine>
