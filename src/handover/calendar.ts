/**
 * Looks and weigh-ins as an iCalendar file (RFC 5545), for the calendar the owner already has.
 *
 * Times are written in UTC. Each entry is one moment and none repeats, so a time zone would add nothing but a VTIMEZONE
 * that importers read differently; an entry after a clock change was already reckoned with that change, and stands at
 * the right hour in any calendar.
 */

export interface CalendarEntry {
  /** The same entry's own name in every file that is written of it, so that importing again replaces and does not double. */
  readonly key: string
  /** Instant, ISO 8601. */
  readonly at: string
  readonly title: string
  readonly text: string
}

const MOST_OCTETS = 75
const ENTRY_MINUTES = 10

/** An instant as a UTC date-time (RFC 5545, 3.3.5), such as `20261125T201500Z`. */
function utc(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`
}

/** Text as a TEXT value (3.3.11): the four escapes, and no control character but the line break. */
function escaped(text: string): string {
  return (
    text
      .replaceAll(/\r\n?/g, '\n')
      // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what the format forbids.
      .replaceAll(/[\u0000-\u0009\u000b-\u001f\u007f]/g, ' ')
      .replaceAll(/[\\;,]/g, sign => `\\${sign}`)
      .replaceAll('\n', '\\n')
  )
}

/** A content line folded at 75 octets (3.1), never within a character. */
function folded(line: string): string {
  const encoder = new TextEncoder()
  const lines: string[] = []
  let current = ''
  let octets = 0
  for (const character of line) {
    const size = encoder.encode(character).length
    if (octets + size > MOST_OCTETS) {
      lines.push(current)
      // The space that marks a continued line counts.
      current = ' '
      octets = 1
    }
    current += character
    octets += size
  }
  return [...lines, current].join('\r\n')
}

function entryLines({ key, at, title, text }: CalendarEntry, stamp: string): string[] {
  const startMs = Date.parse(at)
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(key)}@duskcheck`,
    `DTSTAMP:${stamp}`,
    `DTSTART:${utc(startMs)}`,
    `DTEND:${utc(startMs + ENTRY_MINUTES * 60_000)}`,
    `SUMMARY:${escaped(title)}`,
    `DESCRIPTION:${escaped(text)}`,
    // A look at an animal keeps nobody from being invited elsewhere.
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `DESCRIPTION:${escaped(title)}`,
    'TRIGGER:PT0S',
    'END:VALARM',
    'END:VEVENT',
  ]
}

/**
 * The file's text, with the time it was made at as `now` (an instant); undefined without entries, since a calendar
 * without a component is none.
 */
export function calendarFile(entries: readonly CalendarEntry[], now: string): string | undefined {
  if (entries.length === 0) return undefined
  const stamp = utc(Date.parse(now))
  return [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Duskcheck//Duskcheck//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    ...entries.flatMap(entry => entryLines(entry, stamp)),
    'END:VCALENDAR',
  ]
    .map(line => `${folded(line)}\r\n`)
    .join('')
}
