import { type Clinic, clinicSchema, type OpenSpan, WEEKDAYS } from '../../shared/clinic.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { type Fault, failure, type Result, success } from '../../shared/result.ts'

/** What a clinic types into the form, by the name of the field; every field is text as it was typed. */
export type ClinicForm = Readonly<Record<string, string>>

const SPAN = /^(\d{1,2}:\d{2})\s*(?:-|–|to)\s*(\d{1,2}:\d{2})$/
const DAYS = /^(\d{4}-\d{2}-\d{2})(?:\s*(?:to|–)\s*(\d{4}-\d{2}-\d{2}))?(?:\s+(\d{1,2}:.*))?$/

const padded = (time: string) => time.padStart(5, '0')

/** `09:00-12:30, 14:00-18:00` as spans; undefined where it cannot be read. Nothing is shut all day. */
function spansOf(text: string): OpenSpan[] | undefined {
  const parts = text
    .split(',')
    .map(part => part.trim())
    .filter(part => part !== '')
  const spans = parts.map(part => {
    const [, from, to] = SPAN.exec(part) ?? []
    return from === undefined || to === undefined ? undefined : { from: padded(from), to: padded(to) }
  })
  return spans.every(span => span !== undefined) ? spans : undefined
}

const HOURS_ACCEPTED = 'hours such as 09:00-12:30, 14:00-18:00, or nothing'
const DAYS_ACCEPTED = 'one line each, such as 2026-12-24 to 2026-12-26, or 2026-12-28 10:00-12:00'

/** Reads the form; faults name the field, what was typed and what is accepted. */
export function readClinicForm(form: ClinicForm): Result<Clinic> {
  const faults: Fault[] = []
  const typed = (name: string) => {
    const text = form[name]?.trim()
    return text ? text : undefined
  }
  const given = <Value>(name: string, value: Value | undefined) =>
    value === undefined ? {} : { [name]: value }
  const weeklyHours = WEEKDAYS.flatMap(day => {
    const text = typed(day) ?? ''
    const spans = spansOf(text)
    if (!spans) faults.push({ field: day, value: text, accepted: HOURS_ACCEPTED })
    return (spans ?? []).map(span => ({ day, ...span }))
  })
  const holidays = (typed('holidays') ?? '')
    .split('\n')
    .map(line => line.trim())
    .filter(line => line !== '')
    .flatMap(line => {
      const [, from, to, hours] = DAYS.exec(line) ?? []
      const spans = spansOf(hours ?? '')
      if (from !== undefined && spans) return [{ from, to: to ?? from, spans }]
      faults.push({ field: 'holidays', value: line, accepted: DAYS_ACCEPTED })
      return []
    })
  const greeting = ['greeting1', 'greeting2'].flatMap(name => typed(name) ?? [])
  const raised = Object.keys(form).flatMap(name =>
    name.startsWith('raised ') && typed(name)
      ? [{ concern: name.slice('raised '.length), to: typed(name) }]
      : [],
  )
  const telephoneFor = {
    ...given('now', typed('telephoneNow')),
    ...given('day', typed('telephoneDay')),
    ...given('week', typed('telephoneWeek')),
  }
  const nightTelephone = typed('nightTelephone')
  const written = {
    name: typed('name'),
    telephone: typed('telephone'),
    ...(nightTelephone === undefined
      ? {}
      : { outOfHours: { ...given('name', typed('nightName')), telephone: nightTelephone } }),
    zone: typed('zone'),
    weeklyHours,
    holidays,
    ...given('address', typed('address')),
    ...given('webPage', typed('webPage')),
    ...given('speciesSeen', typed('speciesSeen')),
    ...given('startConcern', typed('startConcern')),
    ...(greeting.length > 0 ? { greeting } : {}),
    ...given('checkedVersion', typed('checkedVersion')),
    raised,
    ...(Object.keys(telephoneFor).length > 0 ? { telephoneFor } : {}),
  }
  const parsed = clinicSchema.safeParse(written)
  if (!parsed.success) faults.push(...faultsOf(parsed.error, written, 'clinic').map(inWords))
  return parsed.success && faults.length === 0 ? success(parsed.data) : failure(faults)
}

const ACCEPTED: readonly (readonly [RegExp, string, string])[] = [
  [/^name$/, 'name', 'a name of up to 80 characters'],
  [/^telephone$/, 'telephone', 'a telephone number: digits, spaces, brackets, a plus in front'],
  [/^outOfHours\.telephone$/, 'nightTelephone', 'a telephone number, or nothing'],
  [/^telephoneFor\.now$/, 'telephoneNow', 'a telephone number, or nothing'],
  [/^telephoneFor\.day$/, 'telephoneDay', 'a telephone number, or nothing'],
  [/^telephoneFor\.week$/, 'telephoneWeek', 'a telephone number, or nothing'],
  [/^outOfHours\.name$/, 'nightName', 'a name of up to 80 characters, or nothing'],
  [/^zone$/, 'zone', 'a time zone such as Europe/London'],
  [/^webPage$/, 'webPage', 'an address that begins with https://'],
  [/^greeting/, 'greeting1', 'two lines of up to 120 characters'],
  [/^weeklyHours/, 'monday', HOURS_ACCEPTED],
  [/^holidays/, 'holidays', DAYS_ACCEPTED],
]

/** The fault with the name of the form's own field. */
function inWords(fault: Fault): Fault {
  const known = ACCEPTED.find(([field]) => field.test(fault.field))
  return known ? { ...fault, field: known[1], accepted: known[2] } : fault
}
