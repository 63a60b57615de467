import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'yaml'
import type { CarePlanWords, QuestionWords, Words } from '../../shared/compiled.ts'
import * as labels from '../../src/app/wording/label-words.ts'
import { protocol } from '../search/vocabulary.ts'

/** Texts that an owner sees together, by what they belong to. */
export interface Shown {
  readonly id: string
  readonly texts: readonly string[]
}

const { frame, logic } = protocol
const parts: readonly Words[] = [
  protocol.dangerWords,
  protocol.commonWords,
  ...Object.values(protocol.concernWords),
]
const merged = <Value>(pick: (words: Words) => Readonly<Record<string, Value>>) =>
  Object.fromEntries(parts.flatMap(words => Object.entries(pick(words))))
const questions = merged(words => words.questions)
const rules = merged(words => words.rules)
const plans = merged(words => words.carePlans)

const ofQuestion = ({ ask, help, howTo, noneText, options, presets }: QuestionWords): string[] => [
  ask,
  help ?? '',
  ...(howTo ?? []),
  noneText ?? '',
  ...options.flatMap(({ text, hint }) => [text, hint ?? '']),
  ...(presets ?? []).map(({ text }) => text),
]
const ofPlan = ({ title, opening, steps, nevers, lookAgain, getHelpIf }: CarePlanWords): string[] => [
  title,
  opening ?? '',
  ...steps.flatMap(({ text, forbiddenBecause }) => [text, forbiddenBecause ?? '']),
  ...nevers.map(({ text }) => text),
  ...lookAgain,
  ...getHelpIf,
]

/** Every question with its help, its how-to and its options. */
export const questionTexts: readonly Shown[] = Object.entries(questions).map(([id, words]) => ({
  id: `question ${id}`,
  texts: ofQuestion(words),
}))

/** Every care plan. */
export const planTexts: readonly Shown[] = Object.entries(plans).map(([id, words]) => ({
  id: `plan ${id}`,
  texts: ofPlan(words),
}))

/** What an outcome says if this rule alone decides: first line, reason, conflict and its plans. */
export const outcomeTexts: readonly Shown[] = logic.rules.map(rule => ({
  id: `outcome ${rule.id}`,
  texts: [
    frame.firstLine[rule.level.urgency],
    rules[rule.id]?.reason ?? '',
    rules[rule.id]?.conflict ?? '',
    ...[rule.firstAid, rule.holding, ...rule.care].flatMap(id => {
      const plan = id === undefined ? undefined : plans[id]
      return plan ? ofPlan(plan) : []
    }),
  ],
}))

/** The reason of every rule alone. */
export const reasonTexts: readonly Shown[] = Object.entries(rules).map(([id, { reason }]) => ({
  id: `reason ${id}`,
  texts: [reason],
}))

/** Every text of a question or plan alone. */
export const singleTexts: readonly Shown[] = [...questionTexts, ...planTexts].flatMap(({ id, texts }) =>
  texts.filter(Boolean).map(text => ({ id: `${id}: ${text}`, texts: [text] })),
)

/** What stands on many screens. */
export const frameTexts: readonly Shown[] = [
  { id: 'words phone', texts: [...frame.nobodyTonight, frame.money, frame.suffering, frame.trustLine] },
  { id: 'words cautions', texts: frame.cautions.map(({ text }) => text) },
  { id: 'words outcome', texts: [frame.notADiagnosis, ...Object.values(frame.firstLine)] },
  { id: 'words normal', texts: frame.concerns.flatMap(({ normal }) => normal ?? []) },
  { id: 'words vet', texts: [frame.treatedByVet] },
  {
    id: 'words find out',
    texts: parts.flatMap(words => Object.values(words.findings).map(({ findOut }) => findOut ?? '')),
  },
]

const CONTENT = join(import.meta.dirname, '../../content/leopard-gecko')
const yamlOf = (file: string): unknown => parse(readFileSync(join(CONTENT, file), 'utf8'))

/** Every text below a value of YAML, with the way to it; ids are no texts. */
function stringsIn(value: unknown, way: string): Shown[] {
  if (typeof value === 'string') return /^[a-z0-9-]+$/.test(value) ? [] : [{ id: way, texts: [value] }]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, one]) => stringsIn(one, `${way}.${key}`))
}

/** The texts of the enclosure check; words of logger files and notes on instruments are no texts for owners. */
export const enclosureTexts: readonly Shown[] = stringsIn(yamlOf('enclosure.yaml'), 'enclosure').filter(
  ({ id }) => !/^enclosure\.(logger|instruments)\./.test(id),
)

/** What the looks of a care plan under way ask and answer. */
export const followUpTexts: readonly Shown[] = readdirSync(join(CONTENT, 'care')).flatMap(file => {
  const plan = yamlOf(`care/${file}`)
  const followUp: unknown =
    typeof plan === 'object' && plan !== null ? Reflect.get(plan, 'followUp') : undefined
  return stringsIn(followUp, file)
})

/** The doors of the start page. */
export const doorTexts: readonly Shown[] = [
  ...frame.doors.map(({ screen, door, doorHint }) => ({
    id: `door ${screen}`,
    texts: [door, doorHint ?? ''],
  })),
  ...frame.concerns.map(({ id, name, hint }) => ({ id: `door ${id}`, texts: [name, hint] })),
]

/** Labels whose places take names, not numbers. */
const SAMPLES: Readonly<Record<string, readonly unknown[]>> = {
  startOtherHint: ['Gecko'],
  tickedDoors: [['An eye', 'A lump']],
}

/** What the app itself says, with something plain where a label takes a name or a number. */
export const labelTexts: readonly Shown[] = Object.entries(labels).flatMap(([id, label]) => {
  const text: unknown =
    typeof label === 'function' ? Reflect.apply(label, undefined, SAMPLES[id] ?? [2, 2, 2, 2, 2]) : label
  if (typeof text === 'string') return [{ id: `label ${id}`, texts: [text] }]
  return []
})
