import type { Condition } from '../../shared/compiled.ts'
import type { ConditionSource } from '../../shared/content.ts'
import { shown } from '../../shared/result.ts'
import type { ContentDocument, Path } from './documents.ts'
import type { ContentFault } from './fault.ts'

/** What a condition needs to know of a fact. */
export interface NamedFact {
  readonly id: string
  readonly options: readonly string[]
  readonly ordered: boolean
}

/** What a condition may name: facts and named terms, each by id. */
export interface Vocabulary {
  readonly facts: readonly NamedFact[]
  readonly factIndex: ReadonlyMap<string, number>
  readonly signIndex: ReadonlyMap<string, number>
  readonly terms: ReadonlyMap<string, ConditionSource>
}

interface Reading {
  readonly vocabulary: Vocabulary
  readonly document: ContentDocument
  readonly faults: ContentFault[]
  /** Terms being read, so that a term that names itself is refused. */
  readonly within: readonly string[]
}

const NEVER: Condition = { kind: 'any', of: [] }

function strings(value: unknown): string[] | undefined {
  if (typeof value === 'string') return [value]
  if (Array.isArray(value) && value.length > 0 && value.every(one => typeof one === 'string')) return value
  return undefined
}

function isMapping(value: unknown): value is ConditionSource {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function atomOf(fact: NamedFact, index: number, wanted: unknown, path: Path, reading: Reading): Condition {
  const refuse = (message: string): Condition => {
    reading.faults.push(reading.document.faultAt(path, message))
    return NEVER
  }
  const orWorse =
    typeof wanted === 'string' && wanted.endsWith(' or worse')
      ? wanted.slice(0, -' or worse'.length)
      : undefined
  if (orWorse !== undefined) {
    const start = fact.options.indexOf(orWorse)
    if (!fact.ordered)
      return refuse(`${fact.id}: given: ${shown(wanted)}; accepted: option names (this one has no order)`)
    if (start < 0) return refuse(`${fact.id}: given: ${orWorse}; accepted: ${fact.options.join(', ')}`)
    if (start === 0)
      return refuse(
        `${fact.id}: given: ${orWorse}, the mildest; accepted: ${fact.options.slice(1).join(', ')}`,
      )
    return {
      kind: 'atom',
      fact: index,
      options: fact.options.reduce((bits, _, at) => (at >= start ? bits | (1 << at) : bits), 0),
    }
  }
  const names = strings(wanted)
  if (!names)
    return refuse(`${fact.id}: given: ${shown(wanted)}; accepted: one or more of ${fact.options.join(', ')}`)
  let options = 0
  for (const name of names) {
    const at = fact.options.indexOf(name)
    if (at < 0) return refuse(`${fact.id}: given: ${name}; accepted: ${fact.options.join(', ')}`)
    options |= 1 << at
  }
  if (fact.ordered) {
    if (options & 1)
      return refuse(
        `${fact.id}: takes the mildest option ${fact.options[0]}; accepted: ${fact.options.slice(1).join(', ')}`,
      )
    const first = fact.options.findIndex((_, at) => options & (1 << at))
    const left = fact.options.filter((_, at) => at > first && !(options & (1 << at)))
    if (left.length > 0)
      return refuse(
        `${fact.id}: takes ${fact.options[first]} but not the worse ${left.join(', ')}; accepted: "${fact.options[first]} or worse"`,
      )
  }
  return { kind: 'atom', fact: index, options }
}

function members(value: unknown, key: string, path: Path, reading: Reading): Condition[] {
  if (!Array.isArray(value) || value.length === 0) {
    reading.faults.push(
      reading.document.faultAt(path, `${key}: given: ${shown(value)}; accepted: a list of conditions`),
    )
    return []
  }
  return value.map((member, index) => readCondition(member, [...path, index], reading))
}

/** Reads one condition of the content; what it refuses is added to the faults and reads as never true. */
export function readCondition(source: unknown, path: Path, reading: Reading): Condition {
  if (!isMapping(source) || Object.keys(source).length === 0) {
    reading.faults.push(reading.document.faultAt(path, `given: ${shown(source)}; accepted: a condition`))
    return NEVER
  }
  if ('atLeast' in source) {
    const count = source['atLeast']
    const of = members(source['of'], 'of', [...path, 'of'], reading)
    if (typeof count !== 'number' || !Number.isInteger(count) || count < 1 || count > of.length) {
      reading.faults.push(
        reading.document.faultAt(
          [...path, 'atLeast'],
          `atLeast: given: ${shown(count)}; accepted: 1 to ${of.length}`,
        ),
      )
      return NEVER
    }
    return { kind: 'atLeast', count, of }
  }
  const parts = Object.entries(source).map(([key, value]): Condition => {
    const here = [...path, key]
    if (key === 'all' || key === 'any') return { kind: key, of: members(value, key, here, reading) }
    if (key === 'sign') {
      const ids = strings(value) ?? []
      const atoms = ids.map((id): Condition => {
        const fact = reading.vocabulary.signIndex.get(id)
        if (fact !== undefined) return { kind: 'atom', fact, options: 1 }
        reading.faults.push(
          reading.document.faultAt(here, `sign: given: ${id}; accepted: an id of danger-signs.yaml`),
        )
        return NEVER
      })
      return atoms.length === 1 && atoms[0] ? atoms[0] : { kind: 'any', of: atoms }
    }
    if (key === 'term') {
      const name = typeof value === 'string' ? value : ''
      const term = reading.vocabulary.terms.get(name)
      if (!term || reading.within.includes(name)) {
        reading.faults.push(
          reading.document.faultAt(
            here,
            `term: given: ${shown(value)}; accepted: ${[...reading.vocabulary.terms.keys()].join(', ') || 'none is defined'}`,
          ),
        )
        return NEVER
      }
      return readCondition(term, here, { ...reading, within: [...reading.within, name] })
    }
    const index = reading.vocabulary.factIndex.get(key)
    const fact = index === undefined ? undefined : reading.vocabulary.facts[index]
    if (index === undefined || !fact) {
      reading.faults.push(reading.document.faultAt(here, `${key}: not a question, finding, sign or term`))
      return NEVER
    }
    return atomOf(fact, index, value, here, reading)
  })
  return parts.length === 1 && parts[0] ? parts[0] : { kind: 'all', of: parts }
}

/** Indexes of all facts a condition names, each once, in order of first mention. */
export function factsOf(condition: Condition | undefined): number[] {
  if (!condition) return []
  if (condition.kind === 'atom') return [condition.fact]
  return [...new Set(condition.of.flatMap(factsOf))]
}
