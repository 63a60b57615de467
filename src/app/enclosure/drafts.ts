import type { CompiledEnclosure, EnclosureItem } from '../../../shared/enclosure.ts'
import type { ReadingUnit } from '../../../shared/reading-units.ts'
import type { EnclosureCase, ItemAnswer } from '../../enclosure/read-input.ts'
import { inItemUnit, rounded } from '../../enclosure/units.ts'
import { sentence } from '../record/read-fields.ts'
import { unitName } from './words.ts'

/** What stands in the fields of one item, before it is an answer. Everything empty means "I don't know". */
export interface Draft {
  /** A number as it was typed. */
  readonly text?: string
  /** The unit it was typed in; the item's own where absent. */
  readonly unit?: ReadingUnit
  /** The chosen line, by its id, or the place of a preset. */
  readonly picked?: string
  /** The ticked lines. */
  readonly ticked?: readonly string[]
  /** Said where it was filled in: the day of the record it is from, or that a check gave it. */
  readonly from?: string
  /** Whether the record has it already. */
  readonly isKept?: boolean
}
export type Drafts = Readonly<Record<string, Draft>>

/** "None of these" of a list with ticks; not an option of its own. */
export const NO_LINE = '-'

const NUMBER = /^[-\u2212]?\d+(?:[.,]\d+)?$/
const HOUR_MS = 3_600_000

/** The other unit an item may be typed in. */
export const OTHER_UNIT: Partial<Record<ReadingUnit, ReadingUnit>> = {
  celsius: 'fahrenheit',
  centimetres: 'inches',
}

/** The ends of an item's range in the unit that was chosen, rounded to whole numbers. */
function rangeWords({ range, unit }: EnclosureItem, chosen: ReadingUnit): string {
  if (!range || !unit) return 'a number'
  const turn = (value: number) => {
    if (chosen === 'fahrenheit') return rounded((value * 9) / 5 + 32, 0)
    if (chosen === 'inches') return rounded(value / 2.54, 0)
    return value
  }
  return `a number from ${turn(range.from)} to ${turn(range.to)} ${unitName(chosen)}`.trim()
}

function amountOf(item: EnclosureItem, { text = '', unit }: Draft): ItemAnswer | string | undefined {
  const written = text.trim()
  if (written === '') return undefined
  const own = item.unit
  const chosen = unit ?? own
  if (own === undefined || chosen === undefined) return undefined
  const typed = NUMBER.test(written) ? Number(written.replace(',', '.').replace('\u2212', '-')) : Number.NaN
  const value = inItemUnit(typed, chosen, own)
  const { from, to } = item.range ?? { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY }
  if (value === undefined || !(value >= from && value <= to))
    return sentence('This reading', { value: written, accepted: rangeWords(item, chosen) })
  return { kind: 'amount', amount: rounded(value, 3) }
}

/** What one item's fields say: an answer, a sentence on what cannot be taken, or nothing. */
export function readDraft(item: EnclosureItem, draft: Draft, nowMs: number): ItemAnswer | string | undefined {
  const { picked, ticked } = draft
  switch (item.kind) {
    case 'amount':
      return amountOf(item, draft)
    case 'choice':
      return item.options.some(({ id }) => id === picked) && picked !== undefined
        ? { kind: 'choice', choice: picked }
        : undefined
    case 'several':
      return ticked === undefined || ticked.length === 0
        ? undefined
        : { kind: 'several', chosen: ticked.filter(one => one !== NO_LINE) }
    case 'since': {
      const preset = picked ? item.presets?.[Number(picked)] : undefined
      return (
        preset && {
          kind: 'since',
          began: new Date(nowMs - preset.hoursAgo * HOUR_MS).toISOString(),
        }
      )
    }
  }
}

/** All fields read: answers for the check, and a sentence for each field that cannot be taken. */
export function readDrafts(
  { items }: CompiledEnclosure,
  drafts: Drafts,
  nowMs: number,
): { readonly given: EnclosureCase; readonly faults: Readonly<Record<string, string>> } {
  const answers = new Map<string, ItemAnswer>()
  const faults: Record<string, string> = {}
  for (const item of items) {
    const draft = drafts[item.id]
    const read = draft && readDraft(item, draft, nowMs)
    if (typeof read === 'string') faults[item.id] = read
    else if (read) answers.set(item.id, read)
  }
  return { given: { answers, feeding: undefined, logger: {} }, faults }
}
