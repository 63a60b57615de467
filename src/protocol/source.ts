import { existsSync } from 'node:fs'
import { basename, join } from 'node:path'
import type * as z from 'zod/mini'
import * as content from '../../shared/content.ts'
import {
  type EnclosureSource,
  enclosureSchema,
  type FeedersSource,
  feedersSchema,
} from '../../shared/enclosure-content.ts'
import { type ContentDocument, parsed, readDocument, yamlFiles } from './documents.ts'
import type { ContentFault } from './fault.ts'

/** A part of the content together with the document it came from, so that later checks can name the place. */
export interface Placed<Value> {
  readonly value: Value
  readonly document: ContentDocument
}

/** The whole content of one species as it was written, each file fitting its schema. */
export interface ProtocolSource {
  readonly species: Placed<content.SpeciesSource>
  readonly questions: Placed<content.QuestionsFileSource>
  readonly bands: Placed<content.BandsFileSource>
  readonly dangerSigns: Placed<content.DangerSignsSource>
  readonly generalRules: Placed<z.infer<typeof content.generalRulesSchema>>
  readonly concerns: readonly Placed<content.ConcernSource>[]
  readonly carePlans: readonly Placed<content.CarePlanSource>[]
  readonly sources: Placed<content.SourceEntry[]>
  readonly evidence: Placed<content.EvidenceRow[]>
  readonly leftOut: Placed<z.infer<typeof content.leftOutFileSchema>>
  readonly hazards: Placed<z.infer<typeof content.hazardsFileSchema>>
  readonly words: Placed<content.WordsSource>
  /** The check of enclosure and feeding; a species may have none. */
  readonly enclosure?: { readonly home: Placed<EnclosureSource>; readonly feeders: Placed<FeedersSource> }
}

/** Reads and parses every file of one species; faults of all files are collected, not only the first. */
export function readSource(
  folder: string,
  speciesFolder: string,
  faults: ContentFault[],
): ProtocolSource | undefined {
  const read = <Value>(schema: z.ZodMiniType<Value>, file: string): Placed<Value> | undefined => {
    if (!existsSync(join(folder, file))) {
      faults.push({ file, line: 1, column: 1, message: 'this file is missing' })
      return undefined
    }
    const document = readDocument(folder, file, faults)
    const value = parsed(schema, document, faults)
    return value === undefined ? undefined : { value, document }
  }
  const list = <Value extends { id: string }>(schema: z.ZodMiniType<Value>, below: string) =>
    yamlFiles(folder, below).map(file => {
      const placed = read(schema, file)
      if (placed && placed.value.id !== basename(file, '.yaml'))
        faults.push(
          placed.document.faultAt(['id'], `id: given: ${placed.value.id}; accepted: the file's own name`),
        )
      return placed
    })

  const inSpecies = (name: string) => `${speciesFolder}/${name}`
  const species = read(content.speciesSchema, inSpecies('species.yaml'))
  const questions = read(content.questionsFileSchema, inSpecies('questions.yaml'))
  const bands = read(content.bandsFileSchema, inSpecies('bands.yaml'))
  const dangerSigns = read(content.dangerSignsSchema, inSpecies('danger-signs.yaml'))
  const generalRules = read(content.generalRulesSchema, inSpecies('general-rules.yaml'))
  const concerns = list(content.concernSchema, inSpecies('concerns'))
  const carePlans = list(content.carePlanSchema, inSpecies('care'))
  const sources = read(content.sourcesFileSchema, 'sources.yaml')
  const evidence = read(content.evidenceFileSchema, 'evidence.yaml')
  const leftOut = read(content.leftOutFileSchema, 'left-out.yaml')
  const hazards = read(content.hazardsFileSchema, 'hazards.yaml')
  const words = read(content.wordsFileSchema, 'words.yaml')
  const hasEnclosure = existsSync(join(folder, inSpecies('enclosure.yaml')))
  const home = hasEnclosure ? read(enclosureSchema, inSpecies('enclosure.yaml')) : undefined
  const feeders = hasEnclosure ? read(feedersSchema, inSpecies('feeders.yaml')) : undefined
  if (hasEnclosure && (!home || !feeders)) return undefined
  const whole = <Value>(value: Value | undefined): value is Value => value !== undefined
  if (
    !species ||
    !questions ||
    !bands ||
    !dangerSigns ||
    !generalRules ||
    !sources ||
    !evidence ||
    !leftOut ||
    !hazards ||
    !words
  )
    return undefined
  if (!concerns.every(whole) || !carePlans.every(whole)) return undefined
  const inOrder = species.value.concerns.map(id => concerns.find(concern => concern?.value.id === id))
  for (const [index, concern] of inOrder.entries()) {
    if (!concern)
      faults.push(
        species.document.faultAt(
          ['concerns', index],
          `concerns.${index}: given: ${species.value.concerns[index]}; accepted: a file in ${inSpecies('concerns')}`,
        ),
      )
  }
  for (const concern of concerns) {
    if (!species.value.concerns.includes(concern.value.id))
      faults.push(
        concern.document.faultAt(['id'], `${concern.value.id}: not listed in species.yaml under concerns`),
      )
  }
  if (!inOrder.every(whole)) return undefined
  return {
    species,
    questions,
    bands,
    dangerSigns,
    generalRules,
    concerns: inOrder,
    carePlans,
    sources,
    evidence,
    leftOut,
    hazards,
    words,
    ...(home && feeders ? { enclosure: { home, feeders } } : {}),
  }
}
