import { describe, expect, it } from 'vitest'
import { handoverSchema } from '../../shared/handover.ts'
import { realHandover } from '../../src/cli/real-handover.ts'
import { handoverDocument, openHistory } from '../../src/handover/document.ts'
import { textPage } from '../../src/handover/text-page.ts'
import { allWords, wordBook } from '../../src/handover/word-book.ts'
import { assess } from '../../src/triage/assess.ts'
import { readCaseFile } from '../../src/triage/read-case-file.ts'
import { realCompiled, realProtocol } from '../laws/real-protocol.ts'
import { fullestHistory, inventedRecord, NOW } from './fullest.ts'

const compiled = realCompiled()
const content = realHandover(compiled)

function sourceOf(written: object) {
  const read = readCaseFile(compiled.logic, written, NOW)
  if (!read.ok) throw new Error(read.faults[0]?.field)
  return {
    logic: compiled.logic,
    frame: compiled.frame,
    book: wordBook(compiled.logic, allWords(compiled)),
    content,
    caseFile: read.value,
    assessment: assess(realProtocol(), read.value, NOW),
  }
}

const STUCK = {
  animal: { name: 'Invented', hatchedOn: '2023-05-01' },
  answers: {
    concern: ['retained-shed'],
    'shed-where': ['toes'],
    'look-blood': { chosen: [], rest: 'no', given: '2026-11-25T01:50:00Z' },
    'last-meal': { hoursAgo: 50, uncertaintyHours: 10 },
    'warm-spot': 31,
    sex: 'female',
    'first-seen': { hoursAgo: 30 },
    course: 'worse',
  },
  weighIns: [{ at: '2026-11-24T19:00:00Z', massGrams: 58, scaleStepGrams: 1 }],
}

describe('the history for a clinic', () => {
  const history = handoverDocument(sourceOf(STUCK))
  const facts = history.sections.flatMap(one => one.facts)

  it('fits its published schema, also at its fullest', () => {
    expect(handoverSchema.safeParse(history).error).toBeUndefined()
    expect(handoverSchema.safeParse(fullestHistory()).error).toBeUndefined()
  })

  it('opens with one line to read aloud: animal, age, sex, grams, sign, since when, course', () => {
    expect(history.readAloud).toBe(
      'Leopard gecko, hatched 2023-05-01, Female, sure, 58 g on 2026-11-24. Old skin is stuck. When did you first see it? 2026-11-23. Is it getting better or worse? Worse.',
    )
  })

  it('keeps signs there, looked for and not there, and not asked apart', () => {
    const { present, absent, notAsked } = history.dangerSigns
    expect(present).toEqual([])
    expect(absent.map(({ label }) => label)).toContain(
      'Blood drips or pools, or the place is wet again after pressing',
    )
    expect(notAsked).toContain('Sunken eyes, a sticky mouth, and it is weak')
    expect(absent[0]).toMatchObject({ tag: 'seen', at: '2026-11-25T01:50:00Z', daysAgo: 0 })
  })

  it('says of each fact whether it was measured, seen, told or guessed', () => {
    const tagOf = (label: string) => facts.find(fact => fact.label.startsWith(label))?.tag
    expect(tagOf('How warm is the warm spot')).toBe('measured')
    expect(tagOf('Where is old skin')).toBe('seen')
    expect(tagOf('Is it male or female')).toBe('told')
    expect(tagOf('When did it last eat')).toBe('guessed')
  })

  it('gives dates with days ago, by the calendar of the owner’s zone', () => {
    const meal = facts.find(fact => fact.label.startsWith('When did it last eat'))
    expect(meal).toMatchObject({ at: '2026-11-23T00:10:00Z', daysAgo: 2, value: '2026-11-23 (about)' })
  })

  it('gives numbers with their units beside the words', () => {
    const warm = facts.find(fact => fact.label.startsWith('How warm'))
    expect(warm).toMatchObject({ value: '31 °C', quantity: { value: 31, unit: 'celsius' } })
  })

  it('opens with the vet who is treating it', () => {
    const treated = handoverDocument(
      sourceOf({
        answers: { ...STUCK.answers, 'already-done': ['vet-new-or-worse'], company: 'another-ill' },
      }),
    )
    expect(treated.underVet.map(({ value }) => value)).toEqual([
      'A vet is treating it, and this is new or worse',
    ])
    expect(textPage(treated).indexOf('A vet is treating it')).toBeLessThan(
      textPage(treated).indexOf('Asked and not there'),
    )
    expect(history.underVet).toEqual([])
  })

  it('asks to keep it apart where mites, loose droppings with thinness or illness at home were found', () => {
    expect(history.keepApart).toEqual([])
    const ill = handoverDocument(sourceOf({ answers: { ...STUCK.answers, company: 'another-ill' } }))
    expect(ill.keepApart).toEqual(['Others at home are ill or died'])
  })

  it('takes weights, sheds, meals and readings of the record, the newest of each', () => {
    const kept = handoverDocument({ ...sourceOf(STUCK), record: inventedRecord() })
    expect(kept.weights.weighIns).toHaveLength(158)
    expect(kept.weights.weighIns.at(-1)?.at).toBe('2026-11-24T22:27:00Z')
    const meals = kept.sections.flatMap(one => one.facts).filter(({ label }) => label === 'Meal')
    expect(meals.map(({ daysAgo }) => daysAgo)).toEqual([3, 40, 80])
    const warm = kept.sections.flatMap(one => one.facts).find(({ label }) => label === 'Warm floor')
    expect(warm).toMatchObject({
      value: '30 °C; an invented probe; on the floor under the lamp',
      tag: 'measured',
    })
    expect(kept.readAloud).toContain('female by the record (sure)')
  })

  it('asks of the common history forms only what is open, and takes what is said', () => {
    const open = openHistory({ content, caseFile: sourceOf(STUCK).caseFile })
    const ids = open.map(({ id }) => id)
    expect(ids).toContain('supplements')
    expect(ids).toContain('toes')
    // Nothing was said of an eye.
    expect(ids).not.toContain('eye-side')
    const told = { supplements: 'Invented powder\nwith D3,\u202e twice a week' }
    expect(
      openHistory({ content, caseFile: sourceOf(STUCK).caseFile, history: told }).map(({ id }) => id),
    ).not.toContain('supplements')
    const after = handoverDocument({ ...sourceOf(STUCK), history: told })
    const fact = after.sections.flatMap(one => one.facts).find(({ label }) => label.startsWith('Which suppl'))
    expect(fact).toMatchObject({ value: 'Invented powder with D3, twice a week', tag: 'told' })
  })

  it('leaves out what the owner leaves out, and says so', () => {
    const less = handoverDocument({
      ...sourceOf(STUCK),
      record: inventedRecord(),
      leaveOut: ['name', 'weights', 'readings', 'past', 'answers'],
    })
    const text = JSON.stringify(less)
    for (const gone of ['Invented', 'an invented probe', 'an invented note', '"massGrams"', '58 g'])
      expect(text).not.toContain(gone)
    expect(less.leftOut).toHaveLength(5)
    expect(textPage(less)).toContain('Left out by the owner\n- its name\n- its weights')
    // What decides stays, whatever is left out.
    expect(less.dangerSigns).toEqual(history.dangerSigns)
  })

  it('puts the guide’s own urgency and rule numbers last, so that they do not lead', () => {
    const text = textPage(history)
    const at = text.indexOf('What this guide made of it')
    expect(at).toBeGreaterThan(text.indexOf('Other answers'))
    expect(text.slice(at)).toMatch(/\[shed-stuck-toe\]/)
    expect(text.slice(0, at)).not.toContain(compiled.frame.urgencyNames.week)
  })

  it('is the same value for the same input', () => {
    expect(handoverDocument(sourceOf(STUCK))).toEqual(history)
  })
})
