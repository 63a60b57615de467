import fc from 'fast-check'
import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { remindersOf } from '../../src/followup/reminders.ts'
import { type CalendarEntry, calendarFile } from '../../src/handover/calendar.ts'
import { at, realPlan, Story, wall } from '../followup/invented.ts'

const NOW = '2026-11-25T20:15:30Z'
const entry = (more: Partial<CalendarEntry> = {}): CalendarEntry => ({
  key: 'run-1-look-3',
  at: '2026-11-28T20:00:00Z',
  title: 'Look at its toes',
  text: 'Gone, looser, same, tighter or darker?',
  ...more,
})

/** The events of a file as an independent reader of RFC 5545 has them. */
function read(file: string | undefined) {
  const calendar = new ICAL.Component(ICAL.parse(file ?? ''))
  return calendar
    .getAllSubcomponents('vevent')
    .map(component => ({ component, event: new ICAL.Event(component) }))
}

describe('a calendar file', () => {
  test('says what RFC 5545 asks of each entry', () => {
    const [only] = read(calendarFile([entry()], NOW))
    expect(only?.event.uid).toBe('run-1-look-3@duskcheck')
    expect(only?.event.summary).toBe('Look at its toes')
    expect(only?.event.startDate.toString()).toBe('2026-11-28T20:00:00Z')
    expect(only?.event.endDate.toString()).toBe('2026-11-28T20:10:00Z')
    expect(String(only?.component.getFirstPropertyValue('dtstamp'))).toBe('2026-11-25T20:15:30Z')
    const alarm = only?.component.getFirstSubcomponent('valarm')
    expect(alarm?.getFirstPropertyValue('action')).toBe('DISPLAY')
    expect(alarm?.getFirstPropertyValue('description')).toBe('Look at its toes')
    expect(String(alarm?.getFirstPropertyValue('trigger'))).toBe('PT0S')
  })

  test('is none without an entry, since a calendar needs a component (RFC 5545, 3.6)', () => {
    expect(calendarFile([], NOW)).toBeUndefined()
  })

  test('writes the worked example of RFC 5545, 3.3.11, as it stands there', () => {
    const text = 'Project XYZ Final Review\nConference Room - 3B\nCome Prepared.'
    expect(calendarFile([entry({ text })], NOW)?.replaceAll('\r\n ', '')).toContain(
      'DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.\r\n',
    )
  })

  test('keeps any text through escapes and folds, in lines of at most 75 octets that end in CR LF', () => {
    const characters = fc.string({ unit: 'grapheme', maxLength: 300 })
    const signs = fc.constantFrom('\\', ';', ',', '\n', ':', '"', 'é', '🦎', ' ')
    const awkward = fc.oneof(characters, fc.string({ unit: signs, maxLength: 200 }))
    fc.assert(
      fc.property(awkward, awkward, (title, text) => {
        const file = calendarFile([entry({ title, text })], NOW) ?? ''
        const lines = file.split('\r\n')
        expect(lines.at(-1)).toBe('')
        expect(lines.every(line => Buffer.byteLength(line) <= 75 && !/[\r\n]/.test(line))).toBe(true)
        const plain = (given: string) =>
          [...given.replaceAll(/\r\n?/g, '\n')]
            .map(one => (one !== '\n' && (one < ' ' || one === '\u007f') ? ' ' : one))
            .join('')
        const [only] = read(file)
        expect(only?.event.summary).toBe(plain(title))
        expect(only?.event.description).toBe(plain(text))
      }),
      { numRuns: 300 },
    )
  })

  test('written again for the same looks has the same UIDs, so that an import replaces and does not double', () => {
    const starts = (now: string) => {
      const story = new Story(realPlan('home-tail')).start('2026-11-20T20:00:00Z')
      const reminders = remindersOf(story.plan, story.events, at(now), 40)
      const events = read(
        calendarFile(
          reminders.map(one => entry(one)),
          now,
        ),
      )
      return new Map(events.map(({ event }) => [event.uid, event.startDate.toString()]))
    }
    const first = starts('2026-11-20T20:00:00Z')
    const later = starts('2026-11-23T21:00:00Z')
    const both = [...later].filter(([uid]) => first.has(uid))
    expect(both.length).toBeGreaterThan(20)
    expect(both).toEqual([...first].filter(([uid]) => later.has(uid)))
    expect(new Set(first.values()).size).toBe(first.size)
  })
})

describe('the times of a tail plan in a calendar', () => {
  test.each([
    // One plan over each clock change of 2026, north and south.
    ['Europe/London', '2026-03-22T19:00:00Z', '2026-03-29'],
    ['Europe/London', '2026-10-18T19:00:00Z', '2026-10-25'],
    ['America/New_York', '2026-03-01T23:00:00Z', '2026-03-08'],
    ['America/New_York', '2026-10-25T23:00:00Z', '2026-11-01'],
    ['Pacific/Auckland', '2026-03-29T07:00:00Z', '2026-04-05'],
    ['Pacific/Auckland', '2026-09-20T07:00:00Z', '2026-09-27'],
  ])('%s, begun %s: at 20:00 on the wall before and after the change of %s', (zone, begun, change) => {
    const story = new Story(realPlan('home-tail')).start(begun, {}, zone)
    const reminders = remindersOf(story.plan, story.events, at(begun, zone), 15)
    const events = read(
      calendarFile(
        reminders.map(one => entry(one)),
        begun,
      ),
    )
    // Through the reader's own UTC time and the machine's own zone data.
    const walls = events.map(({ event }) => wall(event.startDate.toJSDate().toISOString(), zone))
    const evenings = walls.slice(2)
    const day = (count: number) =>
      new Date(Date.parse(`${wall(begun, zone).slice(0, 10)}T12:00:00Z`) + count * 86_400_000)
        .toISOString()
        .slice(0, 10)
    expect(walls.slice(0, 2)).toEqual([
      wall(new Date(Date.parse(begun) + 3_600_000).toISOString(), zone),
      `${day(1)} 08:00`,
    ])
    expect(evenings).toEqual([1, 3, 7, 14, 15].slice(0, evenings.length).map(count => `${day(count)} 20:00`))
    expect(evenings.some(one => one.slice(0, 10) < change)).toBe(true)
    expect(evenings.some(one => one.slice(0, 10) > change)).toBe(true)
  })
})

describe('reminders', () => {
  const plan = realPlan('home-tail')
  test('name a look and a weigh-in of one evening once', () => {
    const story = new Story(plan).start('2026-11-01T19:00:00Z')
    const reminders = remindersOf(plan, story.events, at('2026-11-01T19:00:00Z'), 30)
    expect(reminders.filter(({ weigh }) => weigh).map(one => wall(one.at))).toEqual([
      '2026-11-04 20:00',
      '2026-11-08 20:00',
      '2026-11-15 20:00',
      '2026-11-22 20:00',
      '2026-11-29 20:00',
    ])
    expect(new Set(reminders.map(one => one.at)).size).toBe(reminders.length)
  })

  test('stop once a vet has it or must see it, and leave only the last look once it is well', () => {
    const begun = () => new Story(plan).start('2026-11-01T19:00:00Z')
    const keys = (story: Story) =>
      remindersOf(plan, story.events, at('2026-11-16T09:00:00Z'), 30).map(({ key }) => key)
    expect(keys(begun().add('2026-11-02T09:00:00Z', { kind: 'handed-to-vet' }))).toEqual([])
    expect(keys(begun().look('2026-11-15T20:00:00Z', 'raw'))).toEqual([])
    expect(keys(begun().look('2026-11-15T20:00:00Z', 'healed'))).toEqual(['run-1-last-look'])
  })
})
