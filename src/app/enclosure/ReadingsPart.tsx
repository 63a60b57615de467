/** What the readings mean: each against the range that is used, the published ranges side by side, air and light. */
import type { VNode } from 'preact'
import type { Frame } from '../../../shared/compiled.ts'
import type { CompiledEnclosure } from '../../../shared/enclosure.ts'
import type { EnclosureCheck } from '../../enclosure/check.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { type Numbers, rangeWords } from './words.ts'

type Reading = EnclosureCheck['readings'][number]

export const POSITIONS: Readonly<Record<Reading['position'], string>> = {
  inside: 'inside the range',
  below: 'below the range',
  above: 'above the range',
  'no-range': 'no range to hold it against',
}

interface Shared {
  readonly enclosure: CompiledEnclosure
  readonly numbers: Numbers
}

/** One reading with its range; below it every published range, and the one that is used. */
export function ReadingPart(
  props: Shared & { readonly basisNames: Frame['basisNames']; readonly reading: Reading },
): VNode {
  const { enclosure, numbers, basisNames, reading } = props
  const { unit, used, rows, outBy } = reading
  return (
    <div class="enclosure-reading">
      <p>
        <strong>
          {reading.name}: {numbers.of(reading.value, unit)}
        </strong>
        , {outBy > 0 ? `${numbers.apart(outBy, unit)} ` : ''}
        {POSITIONS[reading.position]} {rangeWords(used, unit, numbers)}.
      </p>
      {reading.instrumentSays === undefined || reading.position === 'inside' ? null : (
        <p class="question-hint">{reading.instrumentSays}</p>
      )}
      <Disclosure summary="The published ranges side by side">
        {used.conflict === undefined ? null : <p>{used.conflict}</p>}
        <table class="enclosure-ranges">
          <caption class="spoken-only">{reading.name}: what each source says</caption>
          <thead>
            <tr>
              <th scope="col">Range</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(row => (
              <tr key={`${row.source} ${row.note}`}>
                <td>{rangeWords(row, unit, numbers)}</td>
                <td>
                  {enclosure.sources[row.source]?.title ?? row.source}: {row.note}
                </td>
              </tr>
            ))}
            <tr>
              <th scope="row">{rangeWords(used, unit, numbers)}</th>
              <td>
                <strong>Used here.</strong> {basisNames[used.basis]}.
              </td>
            </tr>
          </tbody>
        </table>
      </Disclosure>
    </div>
  )
}

/** What the same air is elsewhere, the difference of warm and cool, and how light and powders fit. */
export function AirAndLight({
  enclosure,
  numbers,
  check,
}: Shared & { readonly check: EnclosureCheck }): VNode {
  const { air, light } = check
  const named = (id: string) => enclosure.quantities.find(({ of }) => of === id)?.name ?? id
  return (
    <>
      {air === undefined ? null : (
        <>
          <p>
            The same air holds another humidity where it is warmer or cooler. Read:{' '}
            {numbers.of(air.readAt.percent, 'percent')} at {numbers.of(air.readAt.celsius, 'celsius')}.
          </p>
          <ul>
            {air.elsewhere.map(({ item, celsius, percent }) => (
              <li key={item}>
                {named(item)}, {numbers.of(celsius, 'celsius')}: {numbers.of(percent, 'percent')}
              </li>
            ))}
          </ul>
          <p>
            Water settles on what is colder than {numbers.of(air.dewPointCelsius, 'celsius')}
            {air.coolest?.wet === true ? ', and the coolest place is.' : '.'}
          </p>
        </>
      )}
      <p>UV: {light.says}</p>
      <p>Light and powders: {light.supplements.says}</p>
    </>
  )
}
