import type { CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Protocol } from '../../src/triage/prepare.ts'
import { wizardMachine } from '../../src/wizard/machine.ts'
import { wizardOf } from '../wizard/drive.ts'
import type { Bounds, ChartStart } from './exhaustive/chart.ts'
import { worldsOf } from './possible-worlds.ts'

/**
 * Two witnesses beside the walk and the program, asked at the states that a walk comes through: the second evaluator
 * for the bounds, and the real chart for the question on the screen.
 */
export interface Checker {
  readonly look: NonNullable<ChartStart['onState']>
  readonly faults: readonly string[]
  readonly evaluated: number
  readonly shown: number
  /** What the looking took. */
  readonly milliseconds: number
}

/** @param everyOther the real chart is asked at each state whose number this divides; the evaluator at all */
export function checkerOf(protocol: Protocol, everyOther = 5): Checker {
  const { logic } = protocol
  const machine = wizardMachine(protocol)
  const faults: string[] = []
  const counted = { evaluated: 0, shown: 0, milliseconds: 0 }
  const look = (caseFile: CaseFile, bounds: Bounds, question: number | undefined, now: Moment): void => {
    const worlds = worldsOf(logic, caseFile, now)
    counted.evaluated += 1
    if (worlds.lower !== bounds.lower || worlds.upper !== bounds.upper)
      faults.push(
        `second evaluator: ${worlds.lower} to ${worlds.upper}, not ${bounds.lower} to ${bounds.upper}: ${JSON.stringify(caseFile)}`,
      )
    if (counted.evaluated % everyOther !== 0) return
    counted.shown += 1
    const wizard = wizardOf(protocol, now, caseFile, machine)
    wizard.send({ type: 'START', now })
    const shown = wizard.shown()?.id
    const expected = question === undefined ? undefined : logic.questions[question]!.id
    if (shown !== expected || wizard.atOutcome() !== (question === undefined))
      faults.push(`real chart: shows ${shown}, not ${expected}: ${JSON.stringify(caseFile)}`)
    wizard.stop()
  }
  return {
    look: (...state) => {
      const began = performance.now()
      look(...state)
      counted.milliseconds += performance.now() - began
    },
    faults,
    get evaluated() {
      return counted.evaluated
    },
    get shown() {
      return counted.shown
    },
    get milliseconds() {
      return counted.milliseconds
    },
  }
}
