import * as z from 'zod/mini'
import { ACTS, BASES, PARTS, questionSchema } from './content.ts'

/** The shape of enclosure.yaml and feeders.yaml. Used by the build, the command line and the tests only. */

const id = z.string().check(z.regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/))
const citedId = z.string().check(z.regex(/^[a-z]+-[A-Za-z0-9-]+$/))
const text = z.string().check(z.minLength(1))
const basis = z.enum(BASES)
const condition = z.record(z.string(), z.unknown())
const evidence = z._default(z.array(citedId), [])
const span = z.strictObject({ from: z.number(), to: z.number() })
const words = z.array(text).check(z.minLength(1))
const positive = z.number().check(z.gt(0))

/** An item is a question of the protocol's form, of four kinds, with a group and a way to find out. */
export const itemSchema = z.extend(questionSchema, {
  kind: z.enum(['choice', 'several', 'amount', 'since']),
  unit: z.optional(z.enum(['celsius', 'percent', 'centimetres', 'hours', 'days', 'uv-index'])),
  group: id,
  findOut: text,
})

const quantitySchema = z.strictObject({
  id,
  name: text,
  /** The item's id or the name of a computed number. */
  of: text,
  unit: text,
  places: z.int().check(z.minimum(0), z.maximum(3)),
  measuredWith: z.optional(id),
  rows: z.array(
    z.strictObject({
      source: citedId,
      low: z.optional(z.number()),
      high: z.optional(z.number()),
      note: text,
    }),
  ),
  used: z.strictObject({
    low: z.optional(z.number()),
    high: z.optional(z.number()),
    basis,
    conflict: z.optional(text),
  }),
  evidence,
})

const findingSchema = z.strictObject({
  id,
  name: text,
  of: text,
  unit: text,
  worse: z.enum(['higher', 'lower']),
  bands: z.array(z.strictObject({ id, text, from: z.optional(z.number()), below: z.optional(z.number()) })),
  basis,
  evidence,
})

const faultSchema = z.strictObject({
  id,
  name: text,
  when: condition,
  reason: text,
  causes: z.array(id).check(z.minLength(1)),
  fix: z.strictObject({
    steps: z.array(
      z.strictObject({
        id,
        text,
        act: z.enum(ACTS),
        part: z._default(z.enum(PARTS), 'enclosure'),
        touches: z._default(z.array(id), []),
        basis,
        evidence,
      }),
    ),
    cautions: z.array(id),
  }),
  recheck: z.optional(z.strictObject({ look: text, hours: positive })),
  basis,
  conflict: z.optional(text),
  evidence,
})

export const enclosureSchema = z.strictObject({
  /** Rows that stand behind parts without a claim of their own, such as the instruments. */
  evidence,
  groups: z.array(z.strictObject({ id, name: text })),
  items: z.array(itemSchema),
  instruments: z.array(
    z.strictObject({
      id,
      name: text,
      accuracy: z._default(
        z.array(
          z.strictObject({
            unit: z.enum(['celsius', 'percent', 'uv-index']),
            plusMinus: positive,
            source: citedId,
            note: text,
          }),
        ),
        [],
      ),
    }),
  ),
  instrumentSays: z.strictObject({ yes: text, no: text, 'not-known': text }),
  quantities: z.array(quantitySchema),
  findings: z.array(findingSchema),
  cautions: z.array(z.strictObject({ id, text })),
  /** Which cautions a step needs for what it touches. */
  cautionsFor: z.record(id, z.array(id).check(z.minLength(1))),
  faults: z.array(faultSchema),
  roles: z.strictObject({
    warmSurface: id,
    coolSide: id,
    nightLow: id,
    humidity: id,
    humidityPlace: id,
    temperatureAt: z.record(id, id),
    insideHide: id,
    uvIndex: id,
    uvLamp: id,
    uvLamps: z.array(id),
    noUvLamps: z.array(id),
    uvWay: id,
    uvBarred: z.array(id),
    withD3: id,
    withoutD3: id,
    rarely: z.array(id),
    always: z.array(id),
    floorLength: id,
    floorWidth: id,
    age: id,
    lastChange: id,
  }),
  light: z.strictObject({
    zones: z.array(z.strictObject({ zone: z.int(), behaviour: text, average: span, highest: span })),
    speciesZone: z.int(),
    sources: z.array(citedId),
    conflict: text,
    says: z.strictObject({
      withinAverage: text,
      withinHighest: text,
      aboveZone: text,
      farAbove: text,
      unknown: text,
    }),
    supplements: z.strictObject({
      uvPlain: text,
      noUvWithD3: text,
      uvAndD3: text,
      noUvNoD3: text,
      uvNoCalcium: text,
      noUvPlainOnly: text,
      unknown: text,
    }),
    basis,
    evidence,
  }),
  logger: z.strictObject({
    places: z.array(
      z.strictObject({
        id,
        name: text,
        day: z.optional(id),
        night: z.optional(id),
        humidity: z.optional(id),
      }),
    ),
    words: z.strictObject({
      date: words,
      time: words,
      temperature: words,
      humidity: words,
      celsius: words,
      fahrenheit: words,
    }),
    policy: z.strictObject({
      dayFromHour: z.number().check(z.minimum(0), z.maximum(24)),
      dayToHour: z.number().check(z.minimum(0), z.maximum(24)),
      gapSteps: z.number().check(z.gt(1)),
      swingNoiseCelsius: positive,
      longestSwingHours: positive,
      plotBuckets: z.int().check(z.minimum(10), z.maximum(1000)),
      coldestPlausibleCelsius: z.number(),
      hottestPlausibleCelsius: z.number(),
    }),
  }),
})
export type EnclosureSource = z.infer<typeof enclosureSchema>

const value = z.optional(z.number().check(z.minimum(0)))

export const feedersSchema = z.strictObject({
  rest: z.strictObject({
    factor: positive,
    exponent: positive,
    perCelsius: positive,
    source: citedId,
    joulesPerMillilitreOxygen: positive,
    oxygenNote: text,
    oxygenSource: citedId,
  }),
  active: z.strictObject({ from: positive, to: positive, source: citedId, note: text }),
  diet: z.strictObject({
    calciumToPhosphorus: z.strictObject({ low: positive, high: positive }),
    source: citedId,
    note: text,
  }),
  dusting: z.strictObject({ always: text, evidence }),
  rhythm: z.array(z.strictObject({ ages: z.array(id), says: text, sources: z.array(citedId), basis })),
  preySize: z.strictObject({ says: text, basis }),
  feeders: z.array(
    z.strictObject({
      id,
      name: text,
      moisturePercent: value,
      proteinPercent: value,
      fatPercent: value,
      kilocaloriesPerGram: value,
      calciumMilligramsPerKilogram: value,
      phosphorusMilligramsPerKilogram: value,
      source: z.optional(citedId),
      mineralSource: z.optional(citedId),
      missing: z.optional(text),
      note: z.optional(text),
    }),
  ),
  evidence,
})
export type FeedersSource = z.infer<typeof feedersSchema>
