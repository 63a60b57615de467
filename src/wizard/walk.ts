import type { ChartState, ChartWay, WizardChart, WizardContext, WizardEvent, WizardInput } from './chart.ts'

/** Where a case stands in the chart, and with what. */
export interface Standpoint {
  /** From the outermost state to the one it stands in. */
  readonly states: readonly ChartState[]
  readonly context: WizardContext
}

export interface ChartWalk {
  /** Before anything has happened. */
  readonly begin: (input: WizardInput) => Standpoint
  /** What comes of an event, with every way that is open at once behind it. */
  readonly after: (from: Standpoint, event: WizardEvent) => Standpoint
}

const waysOf = (ways: ChartWay | readonly ChartWay[] = []): readonly ChartWay[] => [ways].flat()

/**
 * Walks the chart by the rules of statecharts, as far as this chart uses them: one active state at each depth, the
 * innermost state that has an open way decides, entry actions run when a state is entered from outside. The same chart
 * runs in the statechart library (machine.ts), and the tests hold both to the same steps.
 */
export function chartWalk({ root, contextOf, holds, changed }: WizardChart): ChartWalk {
  const byTarget = new Map<string, readonly ChartState[]>()
  /** Down to where the wizard can stand. */
  const inmost = (states: readonly ChartState[]): readonly ChartState[] => {
    const state = states.at(-1)
    const first = state?.initial === undefined ? undefined : state.states?.[state.initial]
    return first ? inmost([...states, first]) : states
  }
  const note = (states: readonly ChartState[], above: string) => {
    const state = states.at(-1)
    if (state?.id !== undefined) byTarget.set(`#${state.id}`, states)
    for (const [key, child] of Object.entries(state?.states ?? {})) {
      byTarget.set(`${above}.${key}`, [...states, child])
      note([...states, child], `#${child.id}`)
    }
  }
  note([root], `#${root.id}`)

  const take = ({ states, context }: Standpoint, { target, actions }: ChartWay, event: WizardEvent) => {
    const next = target === undefined ? states : inmost(byTarget.get(target) ?? [])
    const entries = next.filter(state => !states.includes(state)).map(({ entry }) => entry)
    let after = context
    for (const action of [actions, ...entries])
      if (action) after = { ...after, ...changed(action, after, event) }
    return { states: next, context: after }
  }
  /** The first open way, sought from the innermost state outwards. */
  const openWay = (
    { states, context }: Standpoint,
    event: WizardEvent,
    of: (state: ChartState) => ChartState['always'],
  ): ChartWay | undefined =>
    [...states]
      .reverse()
      .flatMap(state => waysOf(of(state)))
      .find(({ guard }) => !guard || holds(guard, context, event))

  return {
    begin: input => ({ states: inmost([root]), context: contextOf(input) }),
    after: (from, event) => {
      let at = from
      let way = openWay(at, event, ({ on }) => on?.[event.type])
      do {
        if (way) at = take(at, way, event)
        way = openWay(at, event, ({ always }) => always)
      } while (way)
      return at
    },
  }
}
