import type { Drafts } from './drafts.ts'

/** What the screens of the enclosure say over and over. */

const UNITS: Readonly<Record<string, string>> = {
  celsius: '°C',
  fahrenheit: '°F',
  percent: '%',
  centimetres: 'cm',
  inches: 'inches',
  hours: 'hours',
  days: 'days',
  'square-metres': 'm²',
  'uv-index': '',
}

/** A unit as it is written; a UV index has none. */
export const unitName = (unit: string): string => UNITS[unit] ?? unit

/** How numbers are written for this keeper: in their own unit beside the one that the ranges are in. */
export interface Numbers {
  /** A number with its unit. */
  readonly of: (value: number, unit: string) => string
  /** A difference of two numbers with its unit. */
  readonly apart: (value: number, unit: string) => string
}

/** Whoever types °F reads °F, with °C beside it, since the fixes are worded in °C. */
export function numbersFor(locale: string, drafts: Drafts): Numbers {
  const number = new Intl.NumberFormat(locale, { maximumFractionDigits: 2 })
  const short = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 })
  const inFahrenheit = Object.values(drafts).some(({ unit, text }) => unit === 'fahrenheit' && text)
  const written = (value: number, unit: string) =>
    `${(unit === 'celsius' ? short : number).format(value)} ${unitName(unit)}`.trim().replace('-', '\u2212')
  const both = (value: number, unit: string, fahrenheit: number) =>
    unit === 'celsius' && inFahrenheit
      ? `${written(value, unit)} (${Math.round(fahrenheit)} °F)`
      : written(value, unit)
  return {
    of: (value, unit) => both(value, unit, (value * 9) / 5 + 32),
    apart: (value, unit) => both(value, unit, (value * 9) / 5),
  }
}

/** A range in words: "30 to 35 °C", "20 °C or more", "up to 27 °C"; no range at all is said. */
export function rangeWords(
  { low, high }: { readonly low?: number | undefined; readonly high?: number | undefined },
  unit: string,
  { of }: Numbers,
): string {
  if (low !== undefined && high !== undefined) {
    const [least, most] = [of(low, unit), of(high, unit)]
    const name = unitName(unit)
    // The unit is said once where it ends both.
    return least === most
      ? least
      : `${name && least.endsWith(name) ? least.slice(0, -name.length - 1) : least} to ${most}`
  }
  if (low !== undefined) return `${of(low, unit)} or more`
  return high === undefined ? 'no number' : `up to ${of(high, unit)}`
}
