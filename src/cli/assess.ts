import { readFileSync } from 'node:fs'
import type { Assessment } from '../../shared/assessment.ts'
import type { CaseFile } from '../../shared/case-file.ts'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { type Moment, momentSchema } from '../../shared/moment.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { failure, type Result, shown, success } from '../../shared/result.ts'
import { handoverDocument } from '../handover/document.ts'
import { careWords, textPage } from '../handover/text-page.ts'
import { allWords, wordBook } from '../handover/word-book.ts'
import { assess } from '../triage/assess.ts'
import { prepare } from '../triage/prepare.ts'
import { readCaseFile } from '../triage/read-case-file.ts'
import { realHandover } from './real-handover.ts'
import { realProtocol } from './real-protocol.ts'
import { sayFaults } from './say-faults.ts'

/**
 * `npm run -s assess -- FILE|- [--now INSTANT] [--zone ZONE] [--text]`: prints the assessment of a case file as
 * JSON, or as a page of text. Exit 0 whatever the outcome, 2 on bad input.
 */

interface Wanted {
  readonly file: string
  readonly now: Moment
  readonly text: boolean
}

const USAGE = 'FILE or - for standard input, then --now INSTANT, --zone ZONE, --text'

/** Reads the command's own words. The clock and zone of the machine stand in where none is given. */
function wantedOf(words: readonly string[]): Result<Wanted> {
  const given = new Map<string, string>()
  const files: string[] = []
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] ?? ''
    if (word === '--text') given.set(word, '')
    else if (word === '--now' || word === '--zone') {
      at += 1
      given.set(word, words[at] ?? '')
    } else if (word.startsWith('--')) return failure([{ field: 'command', value: word, accepted: USAGE }])
    else files.push(word)
  }
  const [file, ...more] = files
  if (file === undefined || more.length > 0) {
    return failure([{ field: 'command', value: files.join(' ') || 'nothing', accepted: USAGE }])
  }
  const now = {
    instant: given.get('--now') ?? new Date().toISOString(),
    zone: given.get('--zone') ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
  }
  const parsed = momentSchema.safeParse(now)
  if (!parsed.success) {
    const faults = faultsOf(parsed.error, now, 'now')
    return failure(faults.map(fault => ({ ...fault, field: fault.field === 'instant' ? '--now' : '--zone' })))
  }
  return success({ file, now: parsed.data, text: given.has('--text') })
}

function jsonOf(file: string): Result<unknown> {
  let text: string
  try {
    text = readFileSync(file === '-' ? 0 : file, 'utf8')
  } catch (error) {
    const why = error instanceof Error ? error.message : shown(error)
    return failure([{ field: 'file', value: file, accepted: `a file that can be read (${why})` }])
  }
  try {
    return success(JSON.parse(text))
  } catch (error) {
    const why = error instanceof Error ? error.message : shown(error)
    return failure([{ field: 'file', value: file, accepted: `JSON (${why})` }])
  }
}

function run(words: readonly string[]): Result<string> {
  const wanted = wantedOf(words)
  if (!wanted.ok) return wanted
  const json = jsonOf(wanted.value.file)
  if (!json.ok) return json
  const compiled = realProtocol()
  const caseFile = readCaseFile(compiled.logic, json.value, wanted.value.now)
  if (!caseFile.ok) return caseFile
  const assessment = assess(prepare(compiled.logic), caseFile.value, wanted.value.now)
  return success(
    wanted.value.text
      ? textOf(compiled, caseFile.value, assessment)
      : `${JSON.stringify(assessment, null, 2)}\n`,
  )
}

/** The history with what to do until it is seen. */
function textOf(compiled: CompiledProtocol, caseFile: CaseFile, assessment: Assessment): string {
  const { logic, frame } = compiled
  const book = wordBook(logic, allWords(compiled))
  const { firstAid, holding, steps, nevers } = assessment.care
  const history = handoverDocument({
    logic,
    frame,
    book,
    content: realHandover(compiled),
    caseFile,
    assessment,
  })
  return textPage(history, {
    steps: careWords(compiled, book, [...firstAid, ...holding, ...steps], 'steps'),
    nevers: careWords(compiled, book, nevers, 'nevers'),
  })
}

const outcome = run(process.argv.slice(2))
if (outcome.ok) process.stdout.write(outcome.value)
else {
  sayFaults(outcome.faults)
  process.exitCode = 2
}
