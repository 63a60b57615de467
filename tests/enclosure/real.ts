import type { CompiledEnclosure } from '../../shared/enclosure.ts'
import type { EnclosureInput, LoggerAnswers } from '../../shared/enclosure-input.ts'
import type { Result } from '../../shared/result.ts'
import { checkEnclosure, type EnclosureCheck } from '../../src/enclosure/check.ts'
import type { LoggerSummary } from '../../src/enclosure/logger/summary.ts'
import { type LoggerOutcome, loggerIntake } from '../../src/enclosure/logger.ts'
import { readEnclosureCase } from '../../src/enclosure/read-input.ts'
import { loadProtocol } from '../../src/protocol/load.ts'
import { readDates } from '../../src/records/csv/date-column.ts'
import { readTime } from '../../src/records/csv/dates.ts'

let compiled: CompiledEnclosure | undefined

/** The real check of this checkout. */
export function realEnclosure(): CompiledEnclosure {
  if (compiled) return compiled
  const loaded = loadProtocol('content', 'leopard-gecko')
  if (!loaded.ok || !loaded.enclosure) throw new Error('the real content has faults: npm run content')
  compiled = loaded.enclosure
  return compiled
}

export type Answers = EnclosureInput['answers']

/** An invented home in which nothing is wrong. */
export const IN_ORDER: Answers = {
  'warm-spot': 32,
  'warm-air': 29,
  'cool-side': 24,
  'night-low': 21,
  'thermometer-kind': 'probe',
  'heat-source': ['heat-mat'],
  thermostat: 'checked',
  'probe-place': 'on-warm-spot',
  'heat-guard': 'cannot-touch',
  humidity: 45,
  'humidity-place': 'cool-end',
  'hygrometer-kind': 'digital-gauge',
  'damp-hide': 'moist',
  'wall-drops': 'never',
  'uv-lamp': 'no-uv',
  'uv-mesh': 'no-uv-lamp',
  shade: 'dark-hides',
  'light-hours': 12,
  'night-light': 'dark',
  'floor-length': 90,
  'floor-width': 45,
  'warm-hide': 'has-warm-hide',
  'cool-hide': 'has-cool-hide',
  'floor-cover': 'paper-or-tile',
  'water-place': 'cool-or-middle',
  company: 'alone',
  age: 'adult',
  'calcium-d3': 'every-feed',
  'calcium-plain': 'never',
  multivitamin: 'weekly-or-so',
  'gut-load': 'fed-before',
  'feed-rhythm': 'every-other-day',
  'prey-size': 'not-wider',
  'prey-left': 'taken-out',
}

export const NOW_MS = Date.parse('2026-11-25T02:10:00Z')

/** The check of what was written, which must be readable. */
export function checked(input: unknown, concern?: string): EnclosureCheck {
  const enclosure = realEnclosure()
  const given = readEnclosureCase(enclosure, input)
  if (!given.ok) throw new Error(JSON.stringify(given.faults))
  return checkEnclosure(enclosure, given.value, NOW_MS, concern)
}

/** The check of the home in order with some answers changed. */
export function checkedWith(changes: Answers, concern?: string): EnclosureCheck {
  return checked({ answers: { ...IN_ORDER, ...changes } }, concern)
}

/** What comes of a logger's file, given in pieces of a length that cuts lines in two. */
export function loggerOutcome(
  text: string,
  answers: LoggerAnswers = {},
  piece = 1000,
): Result<LoggerOutcome> {
  const intake = loggerIntake(realEnclosure(), { readDates, readTime }, answers)
  for (let at = 0; at < text.length; at += piece) intake.push(text.slice(at, at + piece))
  return intake.end()
}

/** The summary of a file that tells everything. */
export function loggerSummary(text: string, answers: LoggerAnswers = {}, piece = 1000): LoggerSummary {
  const outcome = loggerOutcome(text, answers, piece)
  if (!outcome.ok || outcome.value.kind !== 'summary') throw new Error(JSON.stringify(outcome))
  return outcome.value.summary
}
