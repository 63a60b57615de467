import { conditionFileSchema } from '../../shared/condition.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { failure, type Result, success } from '../../shared/result.ts'
import { conditionReport } from '../measure/conditionReport.ts'
import { givenJson, givenText } from './given-text.ts'
import { realProtocol } from './real-protocol.ts'
import { realWeights } from './real-weights.ts'
import { sayFaults } from './say-faults.ts'

/**
 * `npm run -s condition -- FILE|-`: prints what the looks and measures of a JSON file say of one animal's condition
 * (`npm run -s schema -- condition` prints what the file may hold). Exit 0 whatever it says, 2 on bad input.
 */
function run(words: readonly string[]): Result<unknown> {
  const [file, ...more] = words
  if (file === undefined || more.length > 0 || (file !== '-' && file.startsWith('-'))) {
    const value = words.join(' ') || 'nothing'
    return failure([{ field: 'command', value, accepted: 'FILE or - for standard input' }])
  }
  const text = givenText(file)
  if (!text.ok) return text
  const json = givenJson(text.value, file)
  if (!json.ok) return json
  const parsed = conditionFileSchema.safeParse(json.value)
  if (!parsed.success) return failure(faultsOf(parsed.error, json.value, 'condition file'))
  const { name, ...input } = parsed.data
  const { exponent, referenceLengthMillimetres, basis, evidence } = realWeights(realProtocol()).massIndex
  const report = conditionReport(input, { exponent, referenceLengthMillimetres })
  return success({ ...(name === undefined ? {} : { name }), ...report, scaleBasis: { basis, evidence } })
}

const outcome = run(process.argv.slice(2))
if (outcome.ok) process.stdout.write(`${JSON.stringify(outcome.value, null, 2)}\n`)
else {
  sayFaults(outcome.faults)
  process.exitCode = 2
}
