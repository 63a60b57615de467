import { givenText } from './given-text.ts'
import { realProtocol } from './real-protocol.ts'
import { realWeights } from './real-weights.ts'
import { sayFaults } from './say-faults.ts'
import { trendOf } from './trend-of.ts'

// `npm run -s trend -- FILE.csv|- [--born DATE] [--event DATE:KIND]... [--scale-step G] [--now ISO] [--zone Z]`: prints
// what a file of weights says, one result for each animal that a column names, in the order in which they need a
// keeper. Exit 0 whatever the result, 2 on bad input.
const compiled = realProtocol()
const outcome = trendOf(process.argv.slice(2), givenText, compiled, realWeights(compiled))
if (outcome.ok) process.stdout.write(`${JSON.stringify(outcome.value, null, 2)}\n`)
else {
  sayFaults(outcome.faults)
  process.exitCode = 2
}
