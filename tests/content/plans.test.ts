import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { type CarePlanSource, carePlanSchema, wordsFileSchema } from '../../shared/content.ts'

const FOLDER = join(import.meta.dirname, '../../content/leopard-gecko/care')
const plans: CarePlanSource[] = readdirSync(FOLDER)
  .sort()
  .map(name => carePlanSchema.parse(parse(readFileSync(join(FOLDER, name), 'utf8'))))
const steps = plans.flatMap(plan => plan.steps.map(step => ({ ...step, plan: plan.id })))

/** A number that an owner would act on: warmth, minutes, depth, amount, share. */
const ACTED_ON = /\d+\s*(?:°C|min|millimet|centimet|ml\b|mm\b|g\b|grams?\b|%|percent)/i

test('a step that holds a number of warmth, minutes, depth or amount rests on a published row', () => {
  // How fine a scale must be says nothing about the animal.
  const numbered = steps.filter(({ part, text }) => part !== 'none' && ACTED_ON.test(text))
  expect(numbered.length).toBeGreaterThan(0)
  expect(
    numbered.filter(({ basis }) => basis !== 'published').map(({ plan, id }) => `${plan} ${id}`),
  ).toEqual([])
})

test('no step names a medicine, a dose, a dilution or feeding by force', () => {
  const never =
    /antibiotic|iodine|chlorhexidine|peroxide|ointment|cream\b|calcium|vitamin|deworm|painkill|\bmg\b|\bml\b|\bdose|dilut|syringe|force/i
  expect(
    steps
      .filter(({ act, text }) => act !== 'keep-record' && never.test(text.replace('dusted with calcium', '')))
      .map(({ plan, id, text }) => `${plan} ${id}: ${text}`),
  ).toEqual([])
})

test('no step tells the owner to stop or change what a vet gave', () => {
  expect(
    steps.filter(({ text }) => /stop (?:the|its|any) medic|instead of (?:the|its) medic/i.test(text)),
  ).toEqual([])
})

test('the plans for tissue, eye, wound and glue each forbid pushing, pulling or touching on their part', () => {
  const forbidden = (plan: string, part: string) =>
    plans
      .find(({ id }) => id === plan)
      ?.nevers.filter(
        never => never.part === part && ['pull', 'push', 'rub', 'cut', 'medicate'].includes(never.act ?? ''),
      ).length ?? 0
  for (const [plan, part] of [
    ['first-aid-tissue-out', 'vent'],
    ['first-aid-eye', 'eye'],
    ['first-aid-open-wound', 'wound'],
    ['first-aid-glue', 'skin'],
    ['home-watch', 'eye'],
  ] as const)
    expect(forbidden(plan, part), plan).toBeGreaterThan(0)
})

test('every plan to wait with or to care at home looks again within a day or, where nothing was found, within a month', () => {
  for (const { id, kind, lookAgain } of plans) {
    if (kind === 'first-aid') continue
    const days = lookAgain.map(({ hours, morning, day }) => (hours ?? 0) / 24 + (morning ?? 0) + (day ?? 0))
    expect(Math.min(...days), id).toBeLessThanOrEqual(kind === 'holding' ? 1 : 28)
  }
})

test('the cautions on hands, children, kitchen, heat and medicines stand in the words of every outcome', () => {
  const words = wordsFileSchema.parse(parse(readFileSync(join(FOLDER, '../../words.yaml'), 'utf8')))
  const ids = words.cautions.map(({ id }) => id)
  for (const id of ['wash-hands', 'children', 'kitchen', 'heat', 'no-doses', 'no-force-feeding'])
    expect(ids).toContain(id)
})
