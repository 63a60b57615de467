import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import * as z from 'zod/mini'
import { type Assessment, assessmentSchema } from '../../shared/assessment.ts'
import {
  animalEventSchema,
  answerSchema,
  type CaseFileAsWritten,
  caseFileSchema,
  weighInSchema,
} from '../../shared/case-file.ts'
import { type Moment, momentSchema } from '../../shared/moment.ts'
import { URGENCIES } from '../../shared/urgency.ts'
import { loadProtocol } from '../../src/protocol/load.ts'
import { assess } from '../../src/triage/assess.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'
import { readCaseFile } from '../../src/triage/read-case-file.ts'

const urgency = z.enum(URGENCIES)

const publishedCaseSchema = z.strictObject({
  id: z.string(),
  source: z.strictObject({
    citation: z.string(),
    url: z.nullable(z.string()),
    /** How much of the source was seen; the first 37 cases do not say. */
    read: z.optional(z.enum(['excerpt', 'whole entry', 'whole page'])),
  }),
  proxySpecies: z.boolean(),
  kind: z.optional(z.enum(['case', 'guidance'])),
  /** What was there and what was done, in our own words. */
  story: z.optional(z.string()),
  /** Why the source allows this range. */
  why: z.optional(z.string()),
  allowed: z.strictObject({ min: urgency, max: urgency }),
  now: momentSchema,
  reasoning: z.array(z.string()),
  constructed: z.array(z.string()),
  caseFile: caseFileSchema,
})

const patternSchema = z.strictObject({
  id: z.string(),
  says: z.string(),
  /** Rows of content/evidence.yaml; empty where the pattern is from memory. */
  evidence: z.array(z.string()),
  atLeast: z.optional(urgency),
  atMost: z.optional(urgency),
  withinHoursAtMost: z.optional(z.number()),
  now: momentSchema,
  caseFile: caseFileSchema,
  breaks: z.optional(
    z.array(
      z.strictObject({
        says: z.string(),
        answers: z.record(z.string(), answerSchema),
        weighIns: z.optional(z.array(weighInSchema)),
        events: z.optional(z.array(animalEventSchema)),
      }),
    ),
  ),
})

export type Pattern = z.infer<typeof patternSchema>

function readFolder(folder: string): unknown[] {
  const from = join(import.meta.dirname, '../cases', folder)
  return readdirSync(from)
    .filter(name => name.endsWith('.json'))
    .sort()
    .map(name => JSON.parse(readFileSync(join(from, name), 'utf8')))
}

export const publishedCases = readFolder('published').map(one => publishedCaseSchema.parse(one))
export const patterns = readFolder('patterns').map(one => patternSchema.parse(one))

/** The protocol that the published content gives, or a stop that names what is wrong with the content. */
export function leopardGecko(): Protocol {
  const loaded = loadProtocol(join(import.meta.dirname, '../../content'), 'leopard-gecko')
  if (!loaded.ok) throw new Error(`The content does not load: ${JSON.stringify(loaded.faults.slice(0, 5))}`)
  return prepare(loaded.compilation.protocol.logic)
}

/** Reads and weighs a written case file; a case file that does not read is a fault of the case. */
export function weigh(protocol: Protocol, written: CaseFileAsWritten, now: Moment): Assessment {
  const read = readCaseFile(protocol.logic, written, now)
  if (!read.ok) throw new Error(`The case file does not read: ${JSON.stringify(read.faults)}`)
  return assessmentSchema.parse(assess(protocol, read.value, now))
}

/** One assessment in a few words, for a failing test. */
export function shortly({ urgency: got, withinHours, open, reasons }: Assessment): string {
  const level =
    got === undefined ? 'not settled' : `${got}${withinHours === undefined ? '' : ` within ${withinHours} h`}`
  return `${level}; open: ${open.join(', ') || 'none'}; rules: ${reasons.map(({ rule, level: given, unsure }) => `${rule} (${given.urgency}${unsure ? ', unsure' : ''})`).join(', ')}`
}
