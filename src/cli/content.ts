import { speciesIn } from '../protocol/checks/species.ts'
import { faultLine } from '../protocol/fault.ts'
import { loadHandover } from '../protocol/handover.ts'
import { loadProtocol } from '../protocol/load.ts'
import { loadSearchWords } from '../protocol/search-words.ts'
import { loadWeights } from '../protocol/weights.ts'
import { CONTENT_FOLDER } from './real-protocol.ts'

// `npm run -s content [-- FOLDER]`: checks the clinical content of every species. Faults go to stderr, one a
// line, with exit 1; without faults one JSON line of counts per species goes to stdout.
const folder = process.argv[2] ?? CONTENT_FOLDER
const seen = new Set<string>()
for (const species of speciesIn(folder)) {
  const loaded = loadProtocol(folder, species)
  const parts = loaded.ok
    ? [
        loadWeights(folder, species, loaded.compilation.protocol),
        loadHandover(folder, species, loaded.compilation.protocol),
        loadSearchWords(folder, species, loaded.compilation.protocol.frame),
      ]
    : [loaded]
  const faults = parts.flatMap(part => (part.ok ? [] : part.faults))
  if (loaded.ok && faults.length === 0)
    process.stdout.write(`${JSON.stringify({ species, ...loaded.counts })}\n`)
  else {
    for (const line of faults.map(faultLine)) if (!seen.has(line)) process.stderr.write(`${line}\n`)
    for (const fault of faults) seen.add(faultLine(fault))
    process.exitCode = 1
  }
}
