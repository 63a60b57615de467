import fc from 'fast-check'
import { expect, test } from 'vitest'
import * as z from 'zod/mini'
import { EVENT_KINDS } from '../../../shared/event-kinds.ts'
import { faultsOf, type Issue, type Parsed } from '../../../shared/parse-faults.ts'
import { backupModule, shapeOf, storedModule } from '../../../src/app/build/shapes-plugin.ts'
import { parseBackupFile } from '../../../src/records/parse-backup-file.ts'
import { parseEntry, parseEvent } from '../../../src/records/parse-stored.ts'
import * as shapes from '../../../src/records/shapes.ts'

type Reader = (value: unknown) => Parsed<unknown>

/** What the build makes of the schemas, run here as it runs in the page. */
function builtReaders(): Record<'parseEvent' | 'parseEntry' | 'parseBackupFile', Reader> {
  const body = [storedModule(), backupModule()]
    .join('')
    .replaceAll(/^import .*$/gm, '')
    .replaceAll(/^const (part\d+) =/gm, 'var $1 =')
    .replaceAll(/^export const/gm, 'const')
  // Each module has parts of its own, so each runs in a function of its own.
  const [stored = '', backup = ''] = body.split(/(?<=checked\(entry, value\)\n)/)
  const make = new Function(
    ...Object.keys(shapes),
    `${stored}; const parseBackupFile = (() => { ${backup}; return parseBackupFile })()
     return { parseEvent, parseEntry, parseBackupFile }`,
  )
  return make(...Object.values(shapes))
}
const built = builtReaders()

const AT = '2026-11-25T02:10:00Z'
const stamp = { species: 'one', version: '1', hash: 'x' }
const event = { caseId: 'c', seq: 3, at: AT, protocol: stamp }
const written = { entryId: 'e', written: AT, animalId: 'a' }
const item = { ...written, itemId: 'i' }
const answers = [
  { kind: 'choice', choice: 'yes', given: AT },
  { kind: 'several', chosen: ['one', 'other'], rest: 'no', given: AT },
  { kind: 'amount', amount: 4.5, given: AT },
  { kind: 'since', began: AT, uncertaintyHours: 2, given: AT },
  { kind: 'cannot-tell', given: AT },
  { kind: 'cannot-measure', given: AT },
]
const EVENTS: readonly object[] = [
  ...['began', 'went-back', 'assessed', 'finished'].map(kind => ({ ...event, kind, animalId: 'a' })),
  ...answers.map(answer => ({
    ...event,
    kind: 'answered',
    entry: { question: 'q', answer, weighIns: [{ at: AT, massGrams: 50, scaleStepGrams: 1 }] },
  })),
]
const ENTRIES: readonly object[] = [
  {
    ...written,
    kind: 'animal',
    animal: {
      name: 'Ember',
      species: 'one',
      speciesCertainty: 'likely',
      colourLine: 'plain',
      hatchedOn: '2024-02-29',
      hatchedCertainty: 'sure',
      sex: 'female',
      sexCertainty: 'not-known',
      tail: 'regrown',
      place: { room: 'Study', rack: 'rack 2', tub: 'tub 7' },
      note: 'invented',
    },
  },
  {
    ...item,
    kind: 'weigh-in',
    weighIn: { at: AT, massGrams: 50, scaleStepGrams: 1, meal: 'after', note: '' },
  },
  ...EVENT_KINDS.map(kind => ({
    ...item,
    kind: 'event',
    event: {
      at: AT,
      kind,
      share: 0.5,
      seen: true,
      whole: false,
      stuckAt: ['toes'],
      food: 'f',
      offered: 5,
      eaten: 0,
    },
  })),
  {
    ...item,
    kind: 'reading',
    reading: { at: AT, what: 'w', value: 31.5, unit: 'u', measuredWith: 'm', measuredWhere: 'x', note: 'n' },
  },
  {
    ...item,
    kind: 'assessment',
    assessment: {
      at: AT,
      zone: 'Z',
      protocol: stamp,
      caseFile: { any: [1] },
      urgency: 'week',
      mustBeSeenBy: AT,
    },
  },
  { ...item, kind: 'removed' },
  { ...written, kind: 'restored' },
]

/** Values near the bounds of what is accepted, and some that are far from anything. */
const oddValue = fc.oneof(
  fc.constantFrom<unknown>(
    ...[
      undefined,
      null,
      '',
      'x',
      0,
      -0,
      -1,
      1,
      0.5,
      50,
      50.5,
      500,
      500.1,
      NaN,
      Infinity,
      -Infinity,
      true,
      [],
      {},
    ],
    ...[
      2 ** 53 - 1,
      2 ** 53,
      -(2 ** 53),
      1e300,
      new Date(0),
      new Map(),
      [null],
      ['a', 7],
      { kind: 'choice' },
    ],
    ...['2026-02-29', '2024-02-29', '2026-11-25T02:10Z', '2026-11-25T02:10:00', '2026-11-25T02:10:00+01:00'],
    ...[
      '2026-11-25T02:10:00.123-23:59',
      '2026-13-01T00:00:00Z',
      `${AT}\n`,
      'began',
      'answered',
      'sure',
      'after',
    ],
    ...['a'.repeat(20), 'a'.repeat(40), 'a'.repeat(41), 'a'.repeat(60), 'a'.repeat(61), 'a'.repeat(64)],
    ...[
      'a'.repeat(65),
      '🦎'.repeat(32),
      '🦎'.repeat(33),
      'a'.repeat(2000),
      'a'.repeat(2001),
      'no',
      'toString',
    ],
  ),
  fc.double(),
  fc.string({ maxLength: 70 }),
  fc.anything({ maxDepth: 2 }),
)

/** Every path into a value, its own among them. */
function pathsOf(value: unknown, path: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [path]
  return [path, ...Object.entries(value).flatMap(([key, part]) => pathsOf(part, [...path, key]))]
}

/** Whether nothing in it is an object of a class of its own. */
function isPlain(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return true
  return !(value instanceof Date || value instanceof Map) && Object.values(value).every(isPlain)
}

type Change = { readonly at: number; readonly how: 'set' | 'drop' | 'add'; readonly odd: unknown }

/** The value with one part of it set, dropped or added to. */
function changed(value: unknown, { at, how, odd }: Change): unknown {
  const paths = pathsOf(value)
  const path = paths[at % paths.length] ?? []
  const go = (here: unknown, [key, ...rest]: readonly string[]): unknown => {
    if (key === undefined) {
      if (how === 'add' && typeof here === 'object' && here !== null)
        return Array.isArray(here) ? [...here, odd] : { ...here, more: odd }
      return odd
    }
    if (typeof here !== 'object' || here === null) return here
    const copy: Record<string, unknown> | unknown[] = Array.isArray(here) ? [...here] : { ...here }
    if (how === 'drop' && rest.length === 0) Reflect.deleteProperty(copy, key)
    else Reflect.set(copy, key, go(Reflect.get(here, key), rest))
    return copy
  }
  return go(value, path)
}
const change: fc.Arbitrary<Change> = fc.record({
  at: fc.nat({ max: 200 }),
  how: fc.constantFrom('set', 'set', 'drop', 'add'),
  odd: oddValue,
})

const refused = (parsed: Parsed<unknown>): readonly Issue[] => ('issues' in parsed ? parsed.issues : [])

/** Holds both readers to the same rows; returns how many were accepted and refused. */
function compare(own: Reader, library: Reader, rows: readonly object[], runs: number) {
  const count = { accepted: 0, refused: 0 }
  for (const row of rows) expect(refused(own(row))).toEqual([])
  fc.assert(
    fc.property(
      fc.constantFrom(...rows),
      fc.array(change, { minLength: 1, maxLength: 3 }),
      (row, changes) => {
        const value = changes.reduce<unknown>(changed, row)
        const given = own(value)
        const wanted = library(value)
        // The library may go on about one field: that an empty list is also too short a text, say.
        const faults = faultsOf({ issues: refused(given) }, value, 'row')
        const allowed = faultsOf({ issues: refused(wanted) }, value, 'row')
        expect([...new Set(faults.map(({ field }) => field))]).toEqual([
          ...new Set(allowed.map(({ field }) => field)),
        ])
        for (const fault of faults) expect(allowed).toContainEqual(fault)
        expect('value' in given).toBe('value' in wanted)
        // Where every field may be missing, the library makes an empty object of a Date or a Map; the page keeps it.
        if ('value' in given && 'value' in wanted && isPlain(value)) expect(given.value).toEqual(wanted.value)
        count['value' in given ? 'accepted' : 'refused'] += 1
      },
    ),
    { numRuns: runs },
  )
  expect(count.accepted).toBeGreaterThan(runs / 50)
  expect(count.refused).toBeGreaterThan(runs / 50)
}

test('the page accepts and refuses the same events as their schema, and says the same of each', () => {
  compare(built.parseEvent, parseEvent, EVENTS, 8000)
})

test('the page accepts and refuses the same entries as their schema, and says the same of each', () => {
  compare(built.parseEntry, parseEntry, ENTRIES, 8000)
})

test('the page accepts and refuses the same backup files as their schema, and says the same of each', () => {
  const backup = { format: 'duskcheck-backup', version: 1, written: AT, entries: ENTRIES.slice(0, 3) }
  compare(built.parseBackupFile, parseBackupFile, [backup], 3000)
})

test.each([
  ['a record of any keys', z.record(z.string(), z.string())],
  ['an object of any more fields', z.object({ a: z.string() })],
  ['a multiple', z.strictObject({ a: z.number().check(z.multipleOf(2)) })],
  [
    'a choice with nothing to tell by',
    z.union([z.strictObject({ a: z.string() }), z.strictObject({ a: z.number() })]),
  ],
])('the build stops at %s, for which there is no shape', (_what, schema) => {
  expect(() => shapeOf(schema)).toThrow(/No (?:shape|field)/)
})
