import { parseArgs } from 'node:util'
import { EVENT_KINDS } from '../../shared/event-kinds.ts'
import { calendarDay, instant, type Moment, momentSchema } from '../../shared/moment.ts'
import { type Fault, failure, type Result, shown, success } from '../../shared/result.ts'
import type { DateOrder } from '../records/csv/dates.ts'
import { type MassUnit, unitNamed } from '../records/csv/file-words.ts'
import { instantIn } from '../records/zone.ts'
import { isZone } from '../triage/calendar.ts'

/** One `--event DATE:KIND`, with what may follow: `=SHARE` of a tail, `=seen`, and `:NAME` of the animal. */
export interface WordedEvent {
  readonly at: string
  readonly kind: string
  readonly share?: number
  readonly seen?: true
  readonly animal?: string
}

/** What the words of the trend command ask for. */
export interface TrendWords {
  readonly file: string
  readonly now: Moment
  /** `YYYY-MM-DD`: the hatch date of every animal whose file gives none. */
  readonly born?: string
  readonly scaleStepGrams?: number
  /** What dates such as 3/4/2025 mean, and the unit of weights without one, where the file does not tell. */
  readonly dateOrder?: DateOrder
  readonly unit?: MassUnit
  readonly events: readonly WordedEvent[]
}

const DATE_ORDERS: readonly DateOrder[] = ['day-first', 'month-first']

const USAGE =
  'FILE.csv or - for standard input, then --born DATE, --event DATE:KIND (repeated), --scale-step GRAMS, --dates day-first|month-first, --unit UNIT, --now INSTANT, --zone ZONE'

/** Reads the command's own words; `kindsSeen` are kinds that content knows besides those of the record. */
export function trendWords(words: readonly string[], kindsSeen: readonly string[]): Result<TrendWords> {
  const parsed = parsedWords(words)
  if (!parsed.ok) return parsed
  const { values, positionals } = parsed.value
  const faults: Fault[] = []
  const refuse = (field: string, value: string, accepted: string) => {
    faults.push({ field, value: shown(value), accepted })
  }
  const [file, ...more] = positionals
  if (file === undefined || more.length > 0) refuse('command', positionals.join(' ') || 'nothing', USAGE)
  const zone = values.zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone
  const now = momentSchema.safeParse({ instant: values.now ?? new Date().toISOString(), zone })
  if (!now.success) refuse('--now', values.now ?? '', 'an instant such as 2026-11-25T02:10:00Z')
  if (!isZone(zone)) refuse('--zone', zone, 'an IANA time zone such as Europe/London')
  const { born, 'scale-step': step } = values
  if (born !== undefined && !calendarDay.safeParse(born).success)
    refuse('--born', born, 'a day such as 2025-06-30')
  const scaleStepGrams = step === undefined ? undefined : Number(step)
  if (scaleStepGrams !== undefined && !(scaleStepGrams > 0 && scaleStepGrams <= 50))
    refuse('--scale-step', step ?? '', 'a number of grams above 0 and up to 50')
  const dateOrder = DATE_ORDERS.find(order => order === values.dates)
  if (values.dates !== undefined && dateOrder === undefined)
    refuse('--dates', values.dates, DATE_ORDERS.join(' or '))
  const unit = values.unit === undefined ? undefined : unitNamed(values.unit)
  if (values.unit !== undefined && unit === undefined) refuse('--unit', values.unit, 'g, kg, oz or lb')
  if (faults.length > 0 || file === undefined || !now.success) return failure(faults)
  if (born !== undefined && Date.parse(born) > Date.parse(now.data.instant))
    refuse('--born', born, 'a day that is not in the future')
  const events = (values.event ?? []).flatMap(text => {
    const event = eventOf(text, now.data, kindsSeen)
    if (typeof event !== 'string') return [event]
    refuse('--event', text, event)
    return []
  })
  if (faults.length > 0) return failure(faults)
  return success({
    file,
    now: now.data,
    events,
    ...(born === undefined ? {} : { born }),
    ...(scaleStepGrams === undefined ? {} : { scaleStepGrams }),
    ...(dateOrder === undefined ? {} : { dateOrder }),
    ...(unit === undefined ? {} : { unit }),
  })
}

function parsedWords(words: readonly string[]) {
  try {
    return success(
      parseArgs({
        args: [...words],
        allowPositionals: true,
        options: {
          born: { type: 'string' },
          event: { type: 'string', multiple: true },
          'scale-step': { type: 'string' },
          dates: { type: 'string' },
          unit: { type: 'string' },
          now: { type: 'string' },
          zone: { type: 'string' },
        },
      }),
    )
  } catch {
    return failure<never>([{ field: 'command', value: shown(words.join(' ')), accepted: USAGE }])
  }
}

/** A day or an instant, a kind, what may follow `=`, and the name of the animal. */
const EVENT = /^(\d{4}-\d\d-\d\d(?:T[\d:.]+(?:Z|[+-]\d\d:\d\d))?):([a-z-]+)(?:=([^:]*))?(?::(.+))?$/

/** The event that a text means, or what would have been accepted. A day alone means its beginning. */
function eventOf(text: string, now: Moment, kindsSeen: readonly string[]): WordedEvent | string {
  const kinds = [...EVENT_KINDS, ...kindsSeen]
  const [, date = '', kind = '', value, animal] = text.match(EVENT) ?? []
  if (!kinds.includes(kind)) return `DATE:KIND with one of ${kinds.join(', ')}`
  const at = calendarDay.safeParse(date).success ? startOfDay(date, now.zone) : date
  if (!instant.safeParse(at).success) return 'DATE:KIND with a day such as 2026-11-25, or an instant'
  if (Date.parse(at) > Date.parse(now.instant)) return 'a time that is not in the future'
  const common = { at, kind, ...(animal === undefined ? {} : { animal }) }
  if (value === undefined) return common
  if (value === 'seen') return { ...common, seen: true }
  const share = Number(value)
  if (value === '' || !(share >= 0 && share <= 1)) return '=seen, or = and a share of the tail from 0 to 1'
  return { ...common, share }
}

function startOfDay(day: string, zone: string): string {
  return new Date(instantIn(zone)(Date.parse(`${day}T00:00:00Z`))).toISOString()
}
