import type { CompiledEnclosure, EnclosureItem } from '../../shared/enclosure.ts'
import {
  type EnclosureAnswer,
  type EnclosureInput,
  enclosureInputSchema,
  NOT_KNOWN,
} from '../../shared/enclosure-input.ts'
import { faultsOf } from '../../shared/parse-faults.ts'
import { type Fault, failure, type Result, shown, success } from '../../shared/result.ts'
import { inItemUnit } from './units.ts'

/** An answer that was checked against its item; amounts in the item's own unit. */
export type ItemAnswer =
  | { readonly kind: 'choice'; readonly choice: string }
  | { readonly kind: 'several'; readonly chosen: readonly string[] }
  | { readonly kind: 'amount'; readonly amount: number; readonly instrument?: string }
  | { readonly kind: 'since'; readonly began: string }
  | { readonly kind: 'not-known' }

export interface EnclosureCase {
  readonly answers: ReadonlyMap<string, ItemAnswer>
  readonly feeding: EnclosureInput['feeding']
  readonly logger: EnclosureInput['logger']
}

interface Reading {
  readonly item: EnclosureItem
  readonly field: string
  readonly instruments: readonly string[]
}

const refused = (field: string, value: unknown, accepted: string): Result<ItemAnswer> =>
  failure([{ field, value: shown(value), accepted }])

function amountOf(
  { item, field, instruments }: Reading,
  written: Exclude<EnclosureAnswer, readonly string[]>,
): Result<ItemAnswer> {
  const { unit, range } = item
  const stated = typeof written === 'object' && 'amount' in written ? written : undefined
  const amount = typeof written === 'number' ? written : stated?.amount
  if (amount === undefined || !unit || !range)
    return refused(field, written, `a number of ${unit ?? 'no unit'}`)
  const value = inItemUnit(amount, stated?.unit ?? unit, unit)
  if (value === undefined) return refused(`${field}.unit`, stated?.unit, `a unit of ${unit}`)
  if (!(value >= range.from && value <= range.to))
    return refused(field, amount, `from ${range.from} to ${range.to} ${unit}`)
  const instrument = stated?.instrument
  if (instrument !== undefined && !instruments.includes(instrument))
    return refused(`${field}.instrument`, instrument, `one of ${instruments.join(', ')}`)
  return success({ kind: 'amount', amount: value, ...(instrument === undefined ? {} : { instrument }) })
}

function answerOf(reading: Reading, written: EnclosureAnswer): Result<ItemAnswer> {
  const { item, field } = reading
  if (written === NOT_KNOWN || (typeof written === 'object' && 'cannotMeasure' in written))
    return success({ kind: 'not-known' })
  const ids = item.options.map(({ id }) => id)
  const accepted = `${ids.join(', ')}, or ${NOT_KNOWN}`
  switch (item.kind) {
    case 'choice':
      return typeof written === 'string' && ids.includes(written)
        ? success({ kind: 'choice', choice: written })
        : refused(field, written, `one of ${accepted}`)
    case 'several': {
      const chosen = typeof written === 'string' ? [written] : written
      if (!Array.isArray(chosen)) return refused(field, written, `a list of ${accepted}`)
      const unknown = chosen.find(id => !ids.includes(id))
      return unknown === undefined
        ? success({ kind: 'several', chosen })
        : refused(field, unknown, `a list of ${accepted}`)
    }
    case 'amount':
      return Array.isArray(written)
        ? refused(field, written, `a number, or ${NOT_KNOWN}`)
        : amountOf(reading, written)
    case 'since':
      return typeof written === 'object' && 'began' in written
        ? success({ kind: 'since', began: written.began })
        : refused(field, written, `{ "began": an instant }, or ${NOT_KNOWN}`)
  }
}

/** Parses what a keeper says of an enclosure and checks it against the items; every fault is a value with its field. */
export function readEnclosureCase(enclosure: CompiledEnclosure, raw: unknown): Result<EnclosureCase> {
  const parsed = enclosureInputSchema.safeParse(raw)
  if (!parsed.success) return failure(faultsOf(parsed.error, raw, 'file'))
  const { answers: written, feeding, logger } = parsed.data
  const faults: Fault[] = []
  const items = new Map(enclosure.items.map(item => [item.id, item]))
  const instruments = enclosure.instruments.map(({ id }) => id)
  const answers = new Map<string, ItemAnswer>()
  for (const [id, answer] of Object.entries(written)) {
    const field = `answers.${id}`
    const item = items.get(id)
    if (!item) {
      faults.push({ field, value: shown(answer), accepted: `an item: ${[...items.keys()].join(', ')}` })
      continue
    }
    const read = answerOf({ item, field, instruments }, answer)
    if (read.ok) answers.set(id, read.value)
    else faults.push(...read.faults)
  }
  const feeders = enclosure.feeding.feeders.map(({ id }) => id)
  for (const [at, { feeder }] of (feeding?.week ?? []).entries())
    if (!feeders.includes(feeder))
      faults.push({
        field: `feeding.week.${at}.feeder`,
        value: feeder,
        accepted: `one of ${feeders.join(', ')}`,
      })
  const places = enclosure.logger.places.map(({ id }) => id)
  if (logger.place !== undefined && !places.includes(logger.place))
    faults.push({ field: 'logger.place', value: logger.place, accepted: `one of ${places.join(', ')}` })
  return faults.length > 0 ? failure(faults) : success({ answers, feeding, logger })
}
