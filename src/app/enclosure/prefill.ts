import type { Answer } from '../../../shared/case-file.ts'
import type { CompiledEnclosure } from '../../../shared/enclosure.ts'
import { READING_UNIT_NAMES, type ReadingUnit } from '../../../shared/reading-units.ts'
import type { AnimalRecord, KeptReading } from '../../../shared/record.ts'
import type { EnclosureCase, ItemAnswer } from '../../enclosure/read-input.ts'
import { inItemUnit, rounded } from '../../enclosure/units.ts'
import { type Draft, type Drafts, NO_LINE, readDraft } from './drafts.ts'

const isUnit = (unit: string): unit is ReadingUnit => READING_UNIT_NAMES.some(one => one === unit)

/** The newest reading of each item that the record holds, with what and where it was measured. */
export function draftsOfRecord(
  { items, quantities, roles }: CompiledEnclosure,
  { readings }: Pick<AnimalRecord, 'readings'>,
  dayOf: (instant: string) => string,
): Drafts {
  const drafts: Record<string, Draft> = {}
  const pick = (item: string | undefined, option: string | undefined, from: string) => {
    const known = items.find(({ id }) => id === item)
    if (known?.options.some(({ id }) => id === option) && option !== undefined)
      drafts[known.id] = { picked: option, from }
  }
  const oldestFirst = [...readings].sort((one, other) => one.at.localeCompare(other.at))
  for (const { what, value, unit, measuredWith, measuredWhere, at } of oldestFirst) {
    const item = items.find(({ id, kind }) => id === what && kind === 'amount')
    const own = item?.unit
    const amount = own !== undefined && isUnit(unit) ? inItemUnit(value, unit, own) : undefined
    if (!item || amount === undefined) continue
    const from = `From the record, ${dayOf(at)}.`
    drafts[item.id] = { text: String(rounded(amount, 1)), from, isKept: true }
    pick(quantities.find(({ of }) => of === item.id)?.measuredWith, measuredWith, from)
    if (item.id === roles.humidity) pick(roles.humidityPlace, measuredWhere, from)
  }
  return drafts
}

/** What a case under way has said already, where it asks the same as the check of the enclosure. */
export function draftsOfCase(
  { items }: CompiledEnclosure,
  answers: Readonly<Record<string, Answer>>,
  nowMs: number,
): Drafts {
  const from = 'From your check.'
  const drafts: Record<string, Draft> = {}
  for (const item of items) {
    const answer = answers[item.id]
    if (!answer) continue
    const draft: Draft | undefined =
      answer.kind === 'choice'
        ? { picked: answer.choice, from }
        : answer.kind === 'amount'
          ? { text: String(answer.amount), from }
          : answer.kind === 'several' && answer.rest === 'no'
            ? { ticked: answer.chosen.length > 0 ? answer.chosen : [NO_LINE], from }
            : undefined
    const read = draft && readDraft(item, draft, nowMs)
    if (draft && read !== undefined && typeof read !== 'string') drafts[item.id] = draft
  }
  return drafts
}

/** A case file's answers as the check of the enclosure reads them; what it does not ask is left out. */
export function caseOfAnswers(
  enclosure: CompiledEnclosure,
  said: Readonly<Record<string, Answer>>,
  nowMs: number,
): EnclosureCase {
  const drafts = draftsOfCase(enclosure, said, nowMs)
  const answers = new Map<string, ItemAnswer>()
  for (const item of enclosure.items) {
    const draft = drafts[item.id]
    const read = draft && readDraft(item, draft, nowMs)
    if (read !== undefined && typeof read !== 'string') answers.set(item.id, read)
  }
  return { answers, feeding: undefined, logger: {} }
}

/** The numbers of a check as readings for the record; what the record gave itself is not written a second time. */
export function readingsOf(
  { items, quantities, roles }: CompiledEnclosure,
  { answers }: EnclosureCase,
  drafts: Drafts,
  at: string,
): KeptReading[] {
  const choice = (item: string | undefined) => {
    const answer = item === undefined ? undefined : answers.get(item)
    return answer?.kind === 'choice' ? answer.choice : undefined
  }
  return items.flatMap(({ id, unit }) => {
    const answer = answers.get(id)
    if (answer?.kind !== 'amount' || unit === undefined || drafts[id]?.isKept) return []
    const measuredWith = choice(quantities.find(({ of }) => of === id)?.measuredWith)
    const measuredWhere = id === roles.humidity ? choice(roles.humidityPlace) : undefined
    return [
      {
        at,
        what: id,
        value: answer.amount,
        unit,
        ...(measuredWith === undefined ? {} : { measuredWith }),
        ...(measuredWhere === undefined ? {} : { measuredWhere }),
      },
    ]
  })
}
