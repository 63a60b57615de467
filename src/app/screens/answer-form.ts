import { CANNOT_MEASURE, CANNOT_TELL } from '../../../shared/answers.ts'
import type { Answer, WeighIn } from '../../../shared/case-file.ts'
import type { Question, QuestionWords } from '../../../shared/compiled.ts'
import type { Moment } from '../../../shared/moment.ts'
import { presetOf, unitWords } from '../../handover/answer-words.ts'
import { atHourAfterDays, dayOf, hoursLater } from '../../triage/calendar.ts'
import type { LogEntry } from '../../wizard/log.ts'
import { labels } from '../wording/labels.ts'

/** The form's id: its buttons stand outside it, and its controls take their name from it. */
export const FORM_ID = 'question-form'

/** What stands in the fields of one question, before it is an answer. */
export interface AnswerForm {
  /** The chosen line, of a choice or of a duration. */
  readonly picked: string | undefined
  /** The ticked lines. */
  readonly ticked: readonly string[]
  readonly number: string
  readonly day: string
  readonly earlierNumber: string
  readonly earlierDay: string
}

export const EMPTY_FORM: AnswerForm = {
  picked: undefined,
  ticked: [],
  number: '',
  day: '',
  earlierNumber: '',
  earlierDay: '',
}

/** Faults by field; a field is named by its key in the form. */
export type FormFaults = Partial<Record<keyof AnswerForm, string>>

export type FormResult =
  | { readonly ok: true; readonly entry: LogEntry }
  | { readonly ok: false; readonly faults: FormFaults }

/** Lines of a duration are either presets, by their place, or options, by their id. */
export const ON_DATE = 'on-date'
const PRESET = 'preset:'
export const presetValue = (at: number) => `${PRESET}${at}`

const DAY_MS = 86_400_000
const NUMBER = /^\d+(?:[.,]\d+)?$/
const DAY = /^\d{4}-\d{2}-\d{2}$/

/** The fields as they stood when an answer was given. */
export function formOf(
  { kind }: Pick<Question, 'kind'>,
  words: QuestionWords | undefined,
  entry: LogEntry | undefined,
  now: Moment,
): AnswerForm {
  const answer = entry?.answer
  if (!answer) return EMPTY_FORM
  switch (answer.kind) {
    case 'choice':
      return { ...EMPTY_FORM, picked: answer.choice }
    case 'several':
      return { ...EMPTY_FORM, ticked: answer.chosen }
    case 'cannot-tell':
      return { ...EMPTY_FORM, picked: answer.kind }
    case 'cannot-measure':
      if (entry.weighIns) return weighInForm(entry.weighIns, now)
      // Only a list shows what was picked; an empty field must not go on as something that nobody sees.
      return kind === 'since' ? { ...EMPTY_FORM, picked: answer.kind } : EMPTY_FORM
    case 'since': {
      const at = presetOf(words?.presets, answer)
      return at >= 0
        ? { ...EMPTY_FORM, picked: presetValue(at) }
        : { ...EMPTY_FORM, picked: ON_DATE, day: dayOf(Date.parse(answer.began), now.zone) }
    }
    case 'amount':
      return { ...EMPTY_FORM, number: String(answer.amount) }
  }
}

function weighInForm(weighIns: readonly WeighIn[], now: Moment): AnswerForm {
  const [today, earlier] = [...weighIns].sort((one, other) => other.at.localeCompare(one.at))
  return {
    ...EMPTY_FORM,
    number: today ? String(today.massGrams) : '',
    earlierNumber: earlier ? String(earlier.massGrams) : '',
    earlierDay: earlier ? dayOf(Date.parse(earlier.at), now.zone) : '',
  }
}

function readNumber(field: string, text: string, question: Question): { value: number } | { fault: string } {
  const { range } = question
  const accepted = range
    ? labels.faults.range(range.from, range.to, unitWords(range.unit))
    : labels.faults.plainNumber
  const written = text.trim()
  if (written === '') return { fault: labels.faults.empty(field, accepted) }
  const value = NUMBER.test(written) ? Number(written.replace(',', '.')) : Number.NaN
  const fits = Number.isFinite(value) && (!range || (value >= range.from && value <= range.to))
  return fits ? { value } : { fault: labels.faults.number(field, written, accepted) }
}

/** A calendar day as the instant of its noon, in the zone of `now`; never later than `now`. */
function readDay(
  field: string,
  day: string,
  now: Moment,
  accepted: string,
  atLeastAgo: number,
): { at: string } | { fault: string } {
  const nowMs = Date.parse(now.instant)
  if (day === '') return { fault: labels.faults.empty(field, accepted) }
  const asked = DAY.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN
  const ago = Math.round((Date.parse(`${dayOf(nowMs, now.zone)}T00:00:00Z`) - asked) / DAY_MS)
  if (!Number.isFinite(ago) || ago < atLeastAgo) return { fault: labels.faults.number(field, day, accepted) }
  return { at: new Date(Math.min(nowMs, atHourAfterDays(nowMs, -ago, 12, now.zone))).toISOString() }
}

/** The answer that the fields make, or a sentence for each field that cannot be taken. */
export function readForm(
  question: Question,
  words: QuestionWords | undefined,
  form: AnswerForm,
  now: Moment,
): FormResult {
  const given = now.instant
  const entry = (answer: Answer, weighIns?: readonly WeighIn[]): FormResult => ({
    ok: true,
    entry: { question: question.id, answer, ...(weighIns ? { weighIns } : {}) },
  })
  const { picked } = form
  if (picked === CANNOT_TELL || picked === CANNOT_MEASURE) return entry({ kind: picked, given })
  switch (question.kind) {
    case 'choice':
      return picked === undefined
        ? { ok: false, faults: { picked: labels.chooseOne } }
        : entry({ kind: 'choice', choice: picked, given })
    case 'several':
      return form.ticked.length === 0 && !allowsNone(question, words)
        ? { ok: false, faults: { ticked: labels.tickOne } }
        : entry({ kind: 'several', chosen: form.ticked, rest: 'no', given })
    case 'since': {
      if (picked === undefined) return { ok: false, faults: { picked: labels.chooseOne } }
      if (picked === ON_DATE) {
        const day = readDay(labels.date, form.day, now, labels.faults.dateAccepted, 0)
        return 'fault' in day
          ? { ok: false, faults: { day: day.fault } }
          : entry({ kind: 'since', began: day.at, uncertaintyHours: 12, given })
      }
      const preset = picked.startsWith(PRESET)
        ? words?.presets?.[Number(picked.slice(PRESET.length))]
        : undefined
      if (!preset) return entry({ kind: 'choice', choice: picked, given })
      const began = new Date(hoursLater(Date.parse(given), -preset.hoursAgo)).toISOString()
      return entry({ kind: 'since', began, uncertaintyHours: preset.uncertaintyHours, given })
    }
    case 'amount': {
      const read = readNumber(labels.reading, form.number, question)
      return 'fault' in read
        ? { ok: false, faults: { number: read.fault } }
        : entry({ kind: 'amount', amount: read.value, given })
    }
    case 'weights': {
      const today = readNumber(labels.today, form.number, question)
      const wantsEarlier = form.earlierNumber.trim() !== '' || form.earlierDay !== ''
      const earlier = wantsEarlier ? readNumber(labels.earlier, form.earlierNumber, question) : undefined
      const day = wantsEarlier
        ? readDay(labels.earlierDay, form.earlierDay, now, labels.faults.dateEarlier, 1)
        : undefined
      const faults: FormFaults = {
        ...('fault' in today ? { number: today.fault } : {}),
        ...(earlier && 'fault' in earlier ? { earlierNumber: earlier.fault } : {}),
        ...(day && 'fault' in day ? { earlierDay: day.fault } : {}),
      }
      if ('fault' in today || Object.keys(faults).length > 0) return { ok: false, faults }
      const before =
        earlier && 'value' in earlier && day && 'at' in day ? [{ at: day.at, massGrams: earlier.value }] : []
      // The answer says nothing of its own: the weights themselves are what counts.
      return entry({ kind: CANNOT_MEASURE, given }, [...before, { at: given, massGrams: today.value }])
    }
  }
}

/** Whether "none of these" is an answer: always on the first screens, else where content words it. */
export function allowsNone(question: Question, words: QuestionWords | undefined): boolean {
  return question.phase === 'danger' || words?.noneText !== undefined
}
