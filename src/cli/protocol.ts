import { parseArgs } from 'node:util'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { speciesIn } from '../protocol/checks/species.ts'
import { faultLine } from '../protocol/fault.ts'
import { loadProtocol } from '../protocol/load.ts'
import { markdownOf } from '../protocol/print/markdown.ts'
import { mermaidOf } from '../protocol/print/mermaid.ts'
import { statsOf } from '../protocol/print/stats.ts'
import { CONTENT_FOLDER } from './real-protocol.ts'

// `npm run -s protocol [-- --format json|markdown|mermaid|stats] [--content FOLDER]`: the whole protocol for a
// reader, as a page of Markdown unless told otherwise. Bad words end with code 2, faulty content with code 1.
type Print = (protocol: CompiledProtocol, counts: Readonly<Record<string, number>>) => string

const FORMATS: Readonly<Record<string, Print>> = {
  json: protocol => `${JSON.stringify(protocol, null, 2)}\n`,
  markdown: markdownOf,
  mermaid: mermaidOf,
  stats: (protocol, counts) => `${JSON.stringify(statsOf(protocol, counts))}\n`,
}

function refuse(message: string): void {
  process.stderr.write(`${message}\n`)
  process.exitCode = 2
}

function main(): void {
  const { values, positionals } = parseArgs({
    args: process.argv.slice(2),
    options: {
      format: { type: 'string', default: 'markdown' },
      content: { type: 'string', default: CONTENT_FOLDER },
    },
    strict: false,
    allowPositionals: true,
  })
  const unknown = [
    ...positionals,
    ...Object.keys(values).filter(key => key !== 'format' && key !== 'content'),
  ]
  if (unknown.length > 0) {
    refuse(`protocol: given: ${unknown.join(' ')}; accepted: --format, --content`)
    return
  }
  const name = String(values.format)
  const print = Object.hasOwn(FORMATS, name) ? FORMATS[name] : undefined
  if (!print) {
    refuse(`format: given: ${name}; accepted: ${Object.keys(FORMATS).join(', ')}`)
    return
  }
  const folder = String(values.content)
  for (const species of speciesIn(folder)) {
    const loaded = loadProtocol(folder, species)
    if (loaded.ok) process.stdout.write(print(loaded.compilation.protocol, loaded.counts))
    else {
      for (const fault of loaded.faults) process.stderr.write(`${faultLine(fault)}\n`)
      process.exitCode = 1
    }
  }
}

main()
