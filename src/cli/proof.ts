import { writeFileSync } from 'node:fs'
import { enumerateRule, type RuleProof, walkChart } from '../../tests/laws/enumerate.ts'
import { LAWS, prove } from '../../tests/laws/proofs.ts'
import { dice } from '../../tests/laws/random-protocol.ts'
import { realProtocol } from '../../tests/laws/real-protocol.ts'
import { presentHashes, RECORD } from '../../tests/laws/recorded.ts'

/** Runs the long proofs of the laws and writes down what they were of, how much they looked at and how long it took. */

const PROTOCOLS = 4000

const say = (line: string) => process.stderr.write(`${line}\n`)

function timed<Value>(run: () => Value): { readonly value: Value; readonly seconds: number } {
  const began = performance.now()
  const value = run()
  return { value, seconds: Math.round(performance.now() - began) / 1000 }
}

const { logic, code } = presentHashes()
const protocol = realProtocol()

const laws = Object.fromEntries(
  Object.entries(LAWS).map(([name, law]) => {
    const { value: cases, seconds } = timed(() => prove(law, dice, PROTOCOLS))
    say(`${name}: ${cases} cases of ${PROTOCOLS} invented protocols, ${seconds} s`)
    return [name, { protocols: PROTOCOLS, cases, seconds }]
  }),
)

const groups = new Map<string, RuleProof[]>()
const rulesTimed = timed(() => {
  for (const rule of protocol.rules) {
    const name = rule.rule.concern ?? 'general'
    groups.set(name, [...(groups.get(name) ?? []), enumerateRule(protocol, rule)])
  }
})
const all = [...groups.values()].flat()
const faults = [
  ...all.flatMap(proof => proof.faults),
  ...all.flatMap(({ rule, holdsSomewhere }) =>
    holdsSomewhere ? [] : [`${rule}: no case was found in which it holds`],
  ),
]
const rules = Object.fromEntries(
  [...groups].map(([name, proofs]) => [
    name,
    {
      rules: proofs.length,
      combinations: proofs.reduce((sum, proof) => sum + proof.combinations, 0),
      answerSets: proofs.reduce((sum, proof) => sum + proof.answerSets, 0),
      onlySampled: proofs.flatMap(({ rule, whole }) => (whole ? [] : [rule])),
      neverFoundDecidingAlone: proofs.flatMap(({ rule, decides }) => (decides ? [] : [rule])),
    },
  ]),
)
say(`${all.length} rules, ${faults.length} faults, ${rulesTimed.seconds} s`)

const charts = Object.fromEntries(
  protocol.logic.concerns.map(concern => {
    const { value, seconds } = timed(() => walkChart(protocol, concern, { mostSteps: 40_000 }))
    say(
      `${concern}: ${value.states} states, ${value.walks} walks${value.whole ? '' : ', cut short'}, ${seconds} s`,
    )
    return [concern, { ...value, seconds }]
  }),
)

writeFileSync(
  RECORD,
  `${JSON.stringify({ logic, code, faults, laws, rules: { seconds: rulesTimed.seconds, ...rules }, charts }, undefined, 2)}\n`,
)
for (const fault of faults) say(fault)
if (faults.length > 0) process.exitCode = 1
