import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { hazardsFileSchema } from '../../shared/content.ts'
import { patterns } from '../published/cases.ts'

const TESTS = join(import.meta.dirname, '..')
const hazards = hazardsFileSchema.parse(parse(readFileSync(join(TESTS, '../content/hazards.yaml'), 'utf8')))

/** What the tests are called: the titles as written, and what each named case says. */
const written = readdirSync(TESTS, { recursive: true, encoding: 'utf8' })
  .filter(name => /\.(?:test|spec)\.tsx?$/.test(name) && !name.endsWith('hazards.test.ts'))
  .map(name => readFileSync(join(TESTS, name), 'utf8'))
  .join('\n')
const says = new Set(patterns.map(pattern => pattern.says))
const exists = (title: string) =>
  says.has(title) || written.includes(`'${title}'`) || written.includes(`\`${title}\``)

test('every control of a hazard is proved by a test that exists', () => {
  const missing = hazards.flatMap(({ id, controls }) =>
    controls.filter(({ test: title }) => !exists(title)).map(({ test: title }) => `${id}: ${title}`),
  )
  expect(missing).toEqual([])
})

test('a title that no test has is found missing', () => {
  expect(exists('No test is called this')).toBe(false)
})

test('at least 40 hazards, each severe one with two controls that different tests prove', () => {
  expect(hazards.length).toBeGreaterThanOrEqual(40)
  const severe = hazards.filter(({ severity }) => severity === 'severe')
  expect(severe.length).toBeGreaterThan(0)
  for (const { id, controls } of severe)
    expect(new Set(controls.map(control => control.test)).size, id).toBeGreaterThanOrEqual(2)
})
