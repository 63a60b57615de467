import type { WeighIn } from '../../shared/case-file.ts'
import type { Handover, HandoverFact } from '../../shared/handover.ts'
import { crc32 } from './link/crc32.ts'

/**
 * The history as a FHIR R4 Bundle (HL7 FHIR 4.0.1): the animal, the answers, the weights and readings, and what this
 * guide made of it. Nothing in it is computed. The same history gives the same bytes.
 */

/** The codes of UCUM for the units of the protocol (ucum.org); a unit without one is given in words. */
const UCUM: Readonly<Record<string, string>> = {
  celsius: 'Cel',
  grams: 'g',
  percent: '%',
  centimetres: 'cm',
  millimetres: 'mm',
  days: 'd',
  hours: 'h',
}

/** What a resource is made of: JSON, with parts that may be missing. */
type Json = string | number | boolean | Json[] | { [field: string]: Json | undefined }
interface Resource {
  readonly [field: string]: Json | undefined
  readonly resourceType: string
  readonly id: string
}

/** The extension of Patient for animals, part of the R4 specification; it asks for a species. */
const ANIMAL = 'http://hl7.org/fhir/StructureDefinition/patient-animal'

/**
 * Addresses of the resources of one Bundle: UUIDs of version 8 (RFC 9562, section 5.8) made of two checksums of the
 * history and a number, so that two histories hardly share one and the same history always has the same.
 */
function addresses(history: Handover): (at: number) => string {
  const bytes = new TextEncoder().encode(JSON.stringify(history))
  const eight = (value: number) => value.toString(16).padStart(8, '0')
  const first = eight(crc32(bytes))
  const second = eight(crc32(bytes.toReversed()))
  return at => `urn:uuid:${first}-0000-8000-8000-${second}${at.toString(16).padStart(4, '0')}`
}

type UrlOf = (at: number) => string

/** A string that FHIR takes: at least one character, or none at all. */
const some = (text: string | undefined) => (text?.trim() ? text : undefined)

function quantity(value: number, unit: string): Json {
  const code = UCUM[unit]
  return {
    value,
    unit: some(code ?? unit),
    ...(code === undefined ? {} : { system: 'http://unitsofmeasure.org', code }),
  }
}

function patientOf({ animal }: Handover): Resource {
  return {
    resourceType: 'Patient',
    id: 'animal',
    name: some(animal.name) ? [{ text: animal.name }] : undefined,
    birthDate: animal.hatchedOn,
    extension: [
      {
        url: ANIMAL,
        extension: [
          {
            url: 'species',
            valueCodeableConcept: { text: `${animal.species} (${animal.latin})` },
          },
          ...(some(animal.colourLine)
            ? [{ url: 'breed', valueCodeableConcept: { text: animal.colourLine } }]
            : []),
        ],
      },
    ],
  }
}

interface Asked {
  readonly linkId: string
  readonly fact: HandoverFact
}

/** Each question once: those of the sections, then the answers that stand in none. */
function askedOf(
  history: Handover,
): { readonly title: string; readonly id: string; readonly asked: Asked[] }[] {
  const { present, unsure, absent } = history.dangerSigns
  const signs = [...present, ...unsure, ...absent]
  const shown = new Set<string>()
  const groups = [
    { id: 'under-vet', title: 'Under a vet', facts: history.underVet },
    { id: 'danger-signs', title: 'Danger signs', facts: signs },
    ...history.sections.map(({ id, title, facts }) => ({ id: `section-${id}`, title, facts })),
    { id: 'answers', title: 'Other answers', facts: history.answers },
  ]
  return groups.flatMap(({ id, title, facts }) => {
    const asked = facts
      .filter(fact => {
        const key = `${fact.label}\n${fact.value}\n${fact.at ?? ''}`
        if (shown.has(key)) return false
        shown.add(key)
        return true
      })
      .map((fact, at) => ({ linkId: `${id}.${at + 1}`, fact }))
    return asked.length > 0 ? [{ id, title, asked }] : []
  })
}

function questionnaireOf(history: Handover): Resource {
  return {
    resourceType: 'Questionnaire',
    id: 'questions',
    status: 'active',
    subjectType: ['Patient'],
    title: 'History of an animal before a visit',
    version: some(history.guide.protocol.version),
    date: history.made.instant,
    item: askedOf(history).map(({ id, title, asked }) => ({
      linkId: id,
      text: title,
      type: 'group',
      item: asked.map(({ linkId, fact }) => ({
        linkId,
        text: fact.label,
        type: fact.quantity ? 'quantity' : 'string',
      })),
    })),
  }
}

function answersOf(history: Handover, urlOf: UrlOf): Resource {
  return {
    resourceType: 'QuestionnaireResponse',
    id: 'answers',
    status: 'completed',
    questionnaire: urlOf(2),
    subject: { reference: urlOf(1) },
    authored: history.made.instant,
    item: askedOf(history).map(({ id, title, asked }) => ({
      linkId: id,
      text: title,
      item: asked.map(({ linkId, fact }) => ({
        linkId,
        text: fact.label,
        answer: [
          fact.quantity
            ? { valueQuantity: quantity(fact.quantity.value, fact.quantity.unit) }
            : { valueString: `${fact.value} (${[fact.tag, fact.at].filter(Boolean).join(', ')})`.trim() },
        ],
      })),
    })),
  }
}

/** LOINC 29463-7 is "Body weight", as the vital signs of the R4 specification name it. */
function weightOf({ at, massGrams }: WeighIn, index: number, urlOf: UrlOf): Resource {
  return {
    resourceType: 'Observation',
    id: `weight-${index + 1}`,
    status: 'final',
    category: [
      {
        coding: [
          { system: 'http://terminology.hl7.org/CodeSystem/observation-category', code: 'vital-signs' },
        ],
      },
    ],
    code: {
      coding: [{ system: 'http://loinc.org', code: '29463-7', display: 'Body weight' }],
      text: 'Body weight',
    },
    subject: { reference: urlOf(1) },
    effectiveDateTime: at,
    valueQuantity: quantity(massGrams, 'grams'),
  }
}

function readingsOf(history: Handover, urlOf: UrlOf): Resource[] {
  return history.sections
    .flatMap(({ facts }) => facts)
    .flatMap(({ label, at, quantity: number, tag, value }) =>
      number && tag === 'measured' ? [{ label, at, number, value }] : [],
    )
    .map(({ label, at, number, value }, index) => ({
      resourceType: 'Observation',
      id: `reading-${index + 1}`,
      status: 'final',
      code: { text: label },
      subject: { reference: urlOf(1) },
      effectiveDateTime: at,
      valueQuantity: quantity(number.value, number.unit),
      note: some(value) ? [{ text: value }] : undefined,
    }))
}

function riskOf({ guide, made }: Handover, urlOf: UrlOf): Resource {
  const { result, reasons, protocol, trustLine, notADiagnosis, seenBy } = guide
  return {
    resourceType: 'RiskAssessment',
    id: 'result',
    status: 'final',
    subject: { reference: urlOf(1) },
    occurrenceDateTime: made.instant,
    method: { text: `${protocol.species} ${protocol.version} (${protocol.hash})` },
    basis: [{ reference: urlOf(3) }],
    prediction: [
      {
        outcome: { text: 'How soon a vet should see it' },
        qualitativeRisk: { text: seenBy === undefined ? result : `${result} To be seen by ${seenBy}.` },
        rationale: some(reasons.map(({ rule, reason }) => `${reason} [${rule}]`).join(' ')),
      },
    ],
    note: [{ text: `${trustLine} ${notADiagnosis}` }],
  }
}

/** JSON as it is written, without the fields that are undefined. */
const whole = (value: Json): Json => JSON.parse(JSON.stringify(value))

/** The history as a Bundle of type `collection`. */
export function fhirBundle(history: Handover): Json {
  const urlOf = addresses(history)
  const resources = [
    patientOf(history),
    questionnaireOf(history),
    answersOf(history, urlOf),
    riskOf(history, urlOf),
    ...history.weights.weighIns.map((weighIn, at) => weightOf(weighIn, at, urlOf)),
    ...readingsOf(history, urlOf),
  ]
  return whole({
    resourceType: 'Bundle',
    type: 'collection',
    timestamp: history.made.instant,
    entry: resources.map((resource, at) => ({ fullUrl: urlOf(at + 1), resource })),
  })
}
