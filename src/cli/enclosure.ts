import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import type { CompiledEnclosure } from '../../shared/enclosure.ts'
import type { LoggerAnswers } from '../../shared/enclosure-input.ts'
import { instant } from '../../shared/moment.ts'
import { failure, type Result, shown, success } from '../../shared/result.ts'
import { checkEnclosure } from '../enclosure/check.ts'
import type { LoggerSummary } from '../enclosure/logger/summary.ts'
import { loggerIntake } from '../enclosure/logger.ts'
import { readEnclosureCase } from '../enclosure/read-input.ts'
import { readDates } from '../records/csv/date-column.ts'
import { readTime } from '../records/csv/dates.ts'
import { conflictTable } from './enclosure-conflicts.ts'
import { realEnclosure } from './real-protocol.ts'
import { sayFaults } from './say-faults.ts'

/**
 * `npm run -s enclosure -- FILE|- [--logger FILE.csv] [--concern ID] [--now INSTANT]`: prints the check of an enclosure
 * as JSON; `--conflicts` prints the ranges of all sources side by side as Markdown. Exit 2 on bad input, with one line
 * for each fault, also where the logger's file leaves a question open.
 */

const USAGE =
  'FILE or - for standard input, then --logger FILE.csv, --concern ID, --now INSTANT; or --conflicts'

function textOf(file: string, field: string): Result<string> {
  try {
    return success(readFileSync(file === '-' ? 0 : file, 'utf8'))
  } catch (error) {
    const why = error instanceof Error ? error.message : shown(error)
    return failure([{ field, value: file, accepted: `a file that can be read (${why})` }])
  }
}

function loggerOf(enclosure: CompiledEnclosure, file: string, answers: LoggerAnswers): Result<LoggerSummary> {
  const text = textOf(file, '--logger')
  if (!text.ok) return text
  const intake = loggerIntake(enclosure, { readDates, readTime }, answers)
  intake.push(text.value)
  const outcome = intake.end()
  if (!outcome.ok) return outcome
  if (outcome.value.kind === 'summary') return success(outcome.value.summary)
  const { answer, ask, accepted, seen } = outcome.value.question
  const field = `logger.${answer}`
  return failure([{ field, value: `not told. ${ask} (${seen.join('; ')})`, accepted: accepted.join(', ') }])
}

interface Wanted {
  readonly file: string
  readonly logger: string | undefined
  readonly concern: string | undefined
  readonly nowMs: number
}

function check({ file, logger, concern, nowMs }: Wanted): Result<unknown> {
  const text = textOf(file, 'file')
  if (!text.ok) return text
  let raw: unknown
  try {
    raw = JSON.parse(text.value)
  } catch (error) {
    const why = error instanceof Error ? error.message : shown(error)
    return failure([{ field: 'file', value: file, accepted: `JSON (${why})` }])
  }
  const { enclosure, concerns } = realEnclosure()
  if (concern !== undefined && !concerns.includes(concern))
    return failure([{ field: '--concern', value: concern, accepted: concerns.join(', ') }])
  const given = readEnclosureCase(enclosure, raw)
  if (!given.ok) return given
  const checked = checkEnclosure(enclosure, given.value, nowMs, concern)
  if (logger === undefined) return success(checked)
  const summary = loggerOf(enclosure, logger, given.value.logger)
  return summary.ok ? success({ ...checked, logger: summary.value }) : summary
}

function run(words: readonly string[]): Result<string> {
  const refuse = (value: string): Result<string> =>
    failure([{ field: 'command', value: value || 'nothing', accepted: USAGE }])
  let parsed: ReturnType<typeof read>
  try {
    parsed = read(words)
  } catch {
    return refuse(words.join(' '))
  }
  const { values, positionals } = parsed
  if (values.conflicts) return success(conflictTable(realEnclosure().enclosure))
  const [file, ...more] = positionals
  if (file === undefined || more.length > 0) return refuse(positionals.join(' '))
  const now = values.now ?? new Date().toISOString()
  if (!instant.safeParse(now).success)
    return failure([{ field: '--now', value: now, accepted: 'an instant such as 2026-11-25T02:10:00Z' }])
  const wanted = { file, logger: values.logger, concern: values.concern, nowMs: Date.parse(now) }
  const checked = check(wanted)
  return checked.ok ? success(`${JSON.stringify(checked.value, null, 2)}\n`) : checked
}

function read(words: readonly string[]) {
  return parseArgs({
    args: [...words],
    options: {
      logger: { type: 'string' },
      concern: { type: 'string' },
      now: { type: 'string' },
      conflicts: { type: 'boolean' },
    },
    allowPositionals: true,
  })
}

const outcome = run(process.argv.slice(2))
if (outcome.ok) process.stdout.write(outcome.value)
else {
  sayFaults(outcome.faults)
  process.exitCode = 2
}
