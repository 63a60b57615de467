import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type Document, isNode, LineCounter, parseDocument } from 'yaml'
import type * as z from 'zod/mini'
import { shown } from '../../shared/result.ts'
import type { ContentFault } from './fault.ts'

export type Path = readonly (string | number)[]

/** One YAML file that was read, with the means to say where a value stands. */
export interface ContentDocument {
  readonly file: string
  readonly value: unknown
  /** The fault at a path inside this document; walks up to the nearest node that exists. */
  faultAt(path: Path, message: string): ContentFault
}

function position(document: Document, lines: LineCounter, path: Path): { line: number; column: number } {
  for (let length = path.length; length >= 0; length -= 1) {
    const node = length === 0 ? document.contents : document.getIn(path.slice(0, length), true)
    if (isNode(node) && node.range) {
      const { line, col } = lines.linePos(node.range[0])
      return { line, column: col }
    }
  }
  return { line: 1, column: 1 }
}

/** Reads one YAML file. YAML 1.2, unique keys; syntax faults are added to `faults`. */
export function readDocument(folder: string, file: string, faults: ContentFault[]): ContentDocument {
  const lines = new LineCounter()
  const document = parseDocument(readFileSync(join(folder, file), 'utf8'), {
    lineCounter: lines,
    uniqueKeys: true,
  })
  for (const error of [...document.errors, ...document.warnings]) {
    const { line, col } = lines.linePos(error.pos[0])
    faults.push({ file, line, column: col, message: error.message.split('\n')[0] ?? 'not valid YAML' })
  }
  return {
    file,
    value: document.errors.length > 0 ? undefined : document.toJS(),
    faultAt: (path, message) => ({ file, ...position(document, lines, path), message }),
  }
}

/** The YAML files of a folder, sorted by name, as paths below `folder`. */
export function yamlFiles(folder: string, below: string): string[] {
  return readdirSync(join(folder, below))
    .filter(name => name.endsWith('.yaml'))
    .sort()
    .map(name => `${below}/${name}`)
}

function acceptedBy(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `accepted: ${issue.expected}`
    case 'invalid_value':
      return `accepted: ${issue.values.map(String).join(', ')}`
    case 'unrecognized_keys':
      return `not known here: ${issue.keys.join(', ')}`
    case 'invalid_format':
      return `accepted: ${issue.pattern ?? issue.format}`
    case 'too_small':
      return `accepted: at least ${issue.minimum}`
    case 'too_big':
      return `accepted: at most ${issue.maximum}`
    default:
      return issue.code
  }
}

function valueAt(value: unknown, path: Path): unknown {
  let here = value
  for (const key of path) {
    if (typeof here !== 'object' || here === null) return undefined
    here = Reflect.get(here, key)
  }
  return here
}

/** The document's value if it fits the schema; every issue otherwise becomes a fault with its place. */
export function parsed<Value>(
  schema: z.ZodMiniType<Value>,
  document: ContentDocument,
  faults: ContentFault[],
): Value | undefined {
  if (document.value === undefined) return undefined
  const result = schema.safeParse(document.value)
  if (result.success) return result.data
  for (const issue of result.error.issues) {
    const path = issue.path.filter((key): key is string | number => typeof key !== 'symbol')
    const value = valueAt(document.value, path)
    const given = value === undefined ? 'missing' : `given: ${shown(value)}`
    faults.push(document.faultAt(path, `${path.join('.')}: ${given}; ${acceptedBy(issue)}`))
  }
  return undefined
}
