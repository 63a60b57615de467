// The one entry behind every `npm start`, `npm test` and `npm run …`: plain JavaScript, no dependency, so
// that it runs on a fresh clone. This file and node-version.mjs keep to syntax that old Node versions
// read, so that they can answer with a sentence and not with a syntax error.
import { nodeProblem } from './steps/node-version.mjs'

const problem = nodeProblem(process.versions.node)
if (problem) {
  process.stderr.write(`${problem}\n`)
  process.exitCode = 1
} else {
  import('./steps/main.mjs')
    .then(steps => steps.main(process.argv.slice(2)))
    .catch(error => {
      process.stderr.write(`${error?.stack ? error.stack : error}\n`)
      process.exitCode = 1
    })
}
