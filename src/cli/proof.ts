import { writeFileSync } from 'node:fs'
import { chartFigures, proveChart, proveRules, rulesFigures } from '../../tests/laws/enumerate.ts'
import { checkerOf } from '../../tests/laws/other-witnesses.ts'
import { LAWS, prove } from '../../tests/laws/proofs.ts'
import { dice } from '../../tests/laws/random-protocol.ts'
import { realProtocol } from '../../tests/laws/real-protocol.ts'
import { presentHashes, RECORD } from '../../tests/laws/recorded.ts'

/**
 * Runs the long proofs of the laws and writes down what they were of, how much they looked at and how long it took.
 * `npm run proof -- pairs` walks the charts of every two concerns chosen together instead; it takes long and writes
 * nothing.
 */

const PROTOCOLS = 4000

const say = (line: string) => process.stderr.write(`${line}\n`)

function timed<Value>(run: () => Value): { readonly value: Value; readonly seconds: number } {
  const began = performance.now()
  const value = run()
  return { value, seconds: Math.round(performance.now() - began) / 1000 }
}

const protocol = realProtocol()
const { concerns } = protocol.logic
const faults: string[] = []

function provePairs(): void {
  concerns.forEach((one, at) => {
    for (const other of concerns.slice(at + 1)) {
      const { value, seconds } = timed(() => proveChart(protocol, [one, other]))
      faults.push(...value.flatMap(chart => chart.faults))
      const { states, walks, longestWalk } = chartFigures(value)
      say(`${one} and ${other}: ${states} states, ${walks} walks, the longest ${longestWalk}, ${seconds} s`)
    }
  })
}

function proveLaws() {
  return Object.fromEntries(
    Object.entries(LAWS).map(([name, law]) => {
      const { value: cases, seconds } = timed(() => prove(law, dice, PROTOCOLS))
      say(`${name}: ${cases} cases of ${PROTOCOLS} invented protocols, ${seconds} s`)
      return [name, { protocols: PROTOCOLS, cases, seconds }] as const
    }),
  )
}

function proveRulesOf(concern: string | undefined) {
  const { value, seconds } = timed(() => proveRules(protocol, concern))
  faults.push(...value.faults)
  const figures = rulesFigures(value)
  say(`${concern ?? 'general'}: ${figures.rules} rules, ${figures.decideAlone} decide alone, ${seconds} s`)
  return { ...figures, secondsOfRules: seconds }
}

function proveChartOf(concern: string) {
  const checker = checkerOf(protocol)
  const { value, seconds: both } = timed(() => proveChart(protocol, [concern], checker.look))
  faults.push(...value.flatMap(chart => chart.faults), ...checker.faults)
  const figures = chartFigures(value)
  // The walk alone; what the two other witnesses took is not part of it.
  const seconds = Math.round(both * 1000 - checker.milliseconds) / 1000
  say(`${concern}: ${figures.states} states, ${figures.walks} walks, ${seconds} s`)
  return {
    ...figures,
    faults: figures.faults + checker.faults.length,
    secondsOfChart: seconds,
    secondEvaluator: checker.evaluated,
    realChart: checker.shown,
  }
}

if (process.argv.includes('pairs')) provePairs()
else {
  const { logic, code } = presentHashes()
  const laws = proveLaws()
  const general = proveRulesOf(undefined)
  const ofConcerns = Object.fromEntries(
    concerns.map(concern => {
      const rules = proveRulesOf(concern)
      const chart = proveChartOf(concern)
      return [concern, { ...rules, ...chart, faults: rules.faults + chart.faults }] as const
    }),
  )
  const record = { logic, code, faults, laws, general, concerns: ofConcerns }
  writeFileSync(RECORD, `${JSON.stringify(record, undefined, 2)}\n`)
}
for (const fault of faults) say(fault)
if (faults.length > 0) process.exitCode = 1
