/** What a logger's file comes to, in words and as a picture. */
import type { VNode } from 'preact'
import type { CompiledEnclosure } from '../../../shared/enclosure.ts'
import type { LoggerSummary, Measured, PartOfDay } from '../../enclosure/logger/summary.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { type Section, SectionList, Sections } from '../parts/Sections.tsx'
import { LoggerPlot } from './LoggerPlot.tsx'
import { type Numbers, numbersFor, rangeWords } from './words.ts'

interface LoggerResultProps {
  readonly summary: LoggerSummary
  readonly enclosure: CompiledEnclosure
  readonly place: string | undefined
  readonly locale: string
}

export function LoggerResult({ summary, enclosure, place, locale }: LoggerResultProps): VNode {
  const numbers = numbersFor(locale, {})
  const count = new Intl.NumberFormat(locale)
  const day = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short', timeZone: 'UTC' })
  // Times are what the clock on the wall showed.
  const when = (wall: string) => day.format(new Date(`${wall}Z`))
  const { policy } = enclosure.logger
  const { longestCold, thermostat, gaps, unreadable } = summary
  const hours = (value: number) => numbers.of(value, 'hours')
  const ofPart = (words: string, unit: string, part: PartOfDay | undefined): string[] => {
    if (!part) return []
    const { lowest, highest, range, insidePercent, belowPercent, abovePercent } = part
    const ends = `${words}: lowest ${numbers.of(lowest.value, unit)} (${when(lowest.at)}), highest ${numbers.of(highest.value, unit)} (${when(highest.at)}).`
    if (insidePercent === undefined) return [ends]
    const shares = [
      `${insidePercent} % of the time inside ${rangeWords(range, unit, numbers)}`,
      ...(belowPercent ? [`${belowPercent} % below`] : []),
      ...(abovePercent ? [`${abovePercent} % above`] : []),
    ]
    return [`${words}: ${shares.join(', ')}.`, ends]
  }
  const measured = (id: string, title: string, unit: string, it: Measured | undefined): Section | false =>
    it !== undefined && {
      id,
      title,
      more: (
        <>
          <LoggerPlot title={title} unit={unit} measured={it} policy={policy} locale={locale} />
          <SectionList
            kind="reasons"
            items={[...ofPart('By day', unit, it.day), ...ofPart('At night', unit, it.night)]}
          />
        </>
      ),
    }
  const more = [
    ...(longestCold
      ? [
          `Longest cold spell: ${hours(longestCold.hours)}, from ${when(longestCold.from)}. Lowest ${numbers.of(longestCold.lowest, 'celsius')}.`,
        ]
      : []),
    ...(thermostat ? [thermostatWords(thermostat, numbers)] : []),
    gaps.count === 0
      ? 'No gaps.'
      : `${gaps.count === 1 ? '1 gap' : `${gaps.count} gaps`}, ${hours(gaps.hours)} in all${gaps.longest ? `; the longest from ${when(gaps.longest.from)}` : ''}.`,
    ...(place === undefined ? ['Say where the sensor lay, to see the ranges.'] : []),
  ]
  const sections: (Section | false)[] = [
    measured('temperature', 'Temperature', 'celsius', summary.temperature),
    measured('air-humidity', 'Humidity', 'percent', summary.humidity),
    { id: 'also', title: 'Also in the file', list: { kind: 'reasons', items: more } },
  ]
  return (
    <>
      <p>
        {count.format(summary.readings)} readings, from {when(summary.from)} to {when(summary.to)}. Day is
        counted from {policy.dayFromHour}:00 to {policy.dayToHour}:00.
      </p>
      {unreadable.rows === 0 ? null : (
        <Disclosure summary={`${count.format(unreadable.rows)} rows could not be read`}>
          <SectionList
            kind="reasons"
            items={unreadable.first.map(
              ({ field, value, accepted }) => `${field}: ${value}. Accepted: ${accepted}.`,
            )}
          />
        </Disclosure>
      )}
      <Sections sections={sections.filter(section => section !== false)} />
    </>
  )
}

/** How far the thermostat lets the warmth swing, and how far beyond its setting it goes. */
function thermostatWords(
  { typicalCelsius, largestCelsius, overshoot }: NonNullable<LoggerSummary['thermostat']>,
  { apart }: Numbers,
): string {
  const swing = `The thermostat swings by ${apart(typicalCelsius, 'celsius')}, at most ${apart(largestCelsius, 'celsius')}.`
  if (overshoot === undefined) return swing
  return `${swing} Above its setting: ${apart(overshoot.typicalCelsius, 'celsius')}, at most ${apart(overshoot.largestCelsius, 'celsius')}.`
}
