import { type Moment, momentSchema } from '../../shared/moment.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { failure, type Result, success } from '../../shared/result.ts'
import { handoverDocument } from '../handover/document.ts'
import { fhirBundle } from '../handover/fhir.ts'
import { encodeLink } from '../handover/link/codec.ts'
import { HISTORY_LINK } from '../handover/links.ts'
import { textPage } from '../handover/text-page.ts'
import { allWords, wordBook } from '../handover/word-book.ts'
import { assess } from '../triage/assess.ts'
import { prepare } from '../triage/prepare.ts'
import { readCaseFile } from '../triage/read-case-file.ts'
import { givenJson, givenText } from './given-text.ts'
import { realHandover } from './real-handover.ts'
import { realProtocol } from './real-protocol.ts'
import { sayFaults } from './say-faults.ts'

/**
 * `npm run -s handover -- FILE|- [--format text|page|json|fhir|link] [--now INSTANT] [--zone ZONE]`: what a clinic
 * receives of a case file. A link is printed as the part of an address from `#` on. Exit 2 on bad input.
 */

const FORMATS = ['text', 'page', 'json', 'fhir', 'link'] as const
type Format = (typeof FORMATS)[number]

const USAGE = `FILE or - for standard input, then --format ${FORMATS.join('|')}, --now INSTANT, --zone ZONE`

interface Wanted {
  readonly file: string
  readonly format: Format
  readonly now: Moment
}

/** Reads the command's own words. The clock and zone of the machine stand in where none is given. */
function wantedOf(words: readonly string[]): Result<Wanted> {
  const given = new Map<string, string>()
  const files: string[] = []
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] ?? ''
    if (['--format', '--now', '--zone'].includes(word)) {
      at += 1
      given.set(word, words[at] ?? '')
    } else if (word.startsWith('--')) return failure([{ field: 'command', value: word, accepted: USAGE }])
    else files.push(word)
  }
  const [file, ...more] = files
  if (file === undefined || more.length > 0)
    return failure([{ field: 'command', value: files.join(' ') || 'nothing', accepted: USAGE }])
  const name = given.get('--format') ?? 'text'
  const format = FORMATS.find(one => one === name)
  if (!format) return failure([{ field: '--format', value: name, accepted: FORMATS.join(', ') }])
  const now = {
    instant: given.get('--now') ?? new Date().toISOString(),
    zone: given.get('--zone') ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
  }
  const parsed = momentSchema.safeParse(now)
  if (parsed.success) return success({ file, format, now: parsed.data })
  const faults = faultsOf(parsed.error, now, 'now')
  return failure(faults.map(fault => ({ ...fault, field: fault.field === 'instant' ? '--now' : '--zone' })))
}

async function run(words: readonly string[]): Promise<Result<string>> {
  const wanted = wantedOf(words)
  if (!wanted.ok) return wanted
  const { file, format, now } = wanted.value
  const text = givenText(file)
  if (!text.ok) return text
  const json = givenJson(text.value, file)
  if (!json.ok) return json
  const compiled = realProtocol()
  const { logic, frame } = compiled
  const caseFile = readCaseFile(logic, json.value, now)
  if (!caseFile.ok) return caseFile
  const note =
    typeof json.value === 'object' && json.value !== null ? Reflect.get(json.value, 'note') : undefined
  const history = handoverDocument({
    logic,
    frame,
    book: wordBook(logic, allWords(compiled)),
    content: realHandover(compiled),
    caseFile: caseFile.value,
    assessment: assess(prepare(logic), caseFile.value, now),
    ...(typeof note === 'string' ? { note } : {}),
  })
  switch (format) {
    case 'text':
      return success(textPage(history))
    case 'page': {
      const { htmlPage } = await import('./handover-page.tsx')
      return success(htmlPage(history))
    }
    case 'json':
      return success(`${JSON.stringify(history, null, 2)}\n`)
    case 'fhir':
      return success(`${JSON.stringify(fhirBundle(history), null, 2)}\n`)
    case 'link':
      return success(`#history/${await encodeLink(HISTORY_LINK, history)}\n`)
  }
}

const outcome = await run(process.argv.slice(2))
if (outcome.ok) process.stdout.write(outcome.value)
else {
  sayFaults(outcome.faults)
  process.exitCode = 2
}
