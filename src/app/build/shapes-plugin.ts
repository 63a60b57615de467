import { fileURLToPath } from 'node:url'
import type { Plugin } from 'vite'
import * as z from 'zod/mini'
import { backupSchema } from '../../../shared/backup.ts'
import { recordEntrySchema } from '../../../shared/record.ts'
import { storedEventSchema } from '../../../shared/stored-event.ts'

const path = (file: string) => fileURLToPath(new URL(`../../records/${file}`, import.meta.url))
const SHAPES = path('shapes.ts')
const STORED = path('parse-stored.ts')
const BACKUP = path('parse-backup-file.ts')

type JsonSchema = z.core.JSONSchema.BaseSchema

/** A schema as the functions of src/records/shapes.ts write it; throws at anything they have no word for. */
export function shapeOf(schema: z.ZodMiniType): string {
  return written(z.toJSONSchema(schema, { io: 'input' }))
}

/** What of a JSON Schema is understood, and what says nothing of what is accepted. */
const KNOWN = new Set([
  ...['type', 'properties', 'required', 'additionalProperties', 'items', 'oneOf', 'const', 'enum'],
  ...['minLength', 'maxLength', 'pattern', 'format', 'minimum', 'maximum', 'exclusiveMinimum'],
  ...['$schema', 'readOnly'],
])

function written(schema: JsonSchema | boolean): string {
  if (typeof schema === 'boolean') throw new Error('No shape is known for a schema of true or false.')
  const foreign = Object.keys(schema).find(key => !KNOWN.has(key))
  if (foreign !== undefined) throw new Error(`No shape is known for ${foreign}: ${JSON.stringify(schema)}`)
  if (schema.oneOf) return ofKinds(schema.oneOf)
  if (schema.const !== undefined) return call('oneOf', schema.const)
  if (schema.enum) return call('oneOf', ...schema.enum)
  switch (schema.type) {
    case 'string':
      return textShape(schema)
    case 'number':
      return numberShape(schema, 'number')
    case 'integer':
      return numberShape(schema, 'int')
    case 'boolean':
      return 'boolean'
    case 'array':
      if (typeof schema.items === 'object' && !Array.isArray(schema.items))
        return `list(${written(schema.items)})`
      break
    case 'object':
      if (schema.additionalProperties === false) return objectShape(schema)
      break
    case 'null':
      break
    case undefined:
      if (Object.keys(schema).every(key => key === '$schema')) return 'anything'
  }
  throw new Error(`No shape is known for ${JSON.stringify(schema)}`)
}

function textShape({ minLength, maxLength, pattern, format }: JsonSchema): string {
  if (pattern === undefined) return call('text', minLength, maxLength)
  const name = format === 'date-time' ? 'datetime' : format
  return `text(${minLength ?? 0},${maxLength ?? 'Infinity'},/${pattern.replaceAll('/', '\\/')}/,${JSON.stringify(name)})`
}

function numberShape({ minimum, maximum, exclusiveMinimum }: JsonSchema, kind: string): string {
  return exclusiveMinimum === undefined
    ? call('number', minimum, maximum, kind === 'number' ? undefined : kind)
    : call('number', exclusiveMinimum, maximum, kind, true)
}

function objectShape({ properties = {}, required = [] }: JsonSchema): string {
  const fields = Object.entries(properties).map(([name, field]) => {
    const shape = written(field)
    return `${JSON.stringify(name)}:${required.includes(name) ? shape : `optional(${shape})`}`
  })
  return `object({${fields.join()}})`
}

/** Objects that are told apart by a field of which each has values of its own. */
function ofKinds(branches: readonly JsonSchema[]): string {
  const valuesOf = (branch: JsonSchema, name: string): readonly unknown[] => {
    const field = branch.properties?.[name]
    if (typeof field !== 'object') return []
    return field.const === undefined ? (field.enum ?? []) : [field.const]
  }
  const by = Object.keys(branches[0]?.properties ?? {}).find(name => {
    const values = branches.flatMap(branch => valuesOf(branch, name))
    return (
      branches.every(branch => valuesOf(branch, name).length > 0) && new Set(values).size === values.length
    )
  })
  if (by === undefined) throw new Error(`No field tells these apart: ${JSON.stringify(branches)}`)
  const shapes = branches.flatMap(branch => {
    const shape = written(branch)
    return valuesOf(branch, by).map(value => `${JSON.stringify(value)}:${shape}`)
  })
  return `byField(${JSON.stringify(by)},{${shapes.join()}})`
}

/** A call without the arguments at its end that are the function's own. */
function call(name: string, ...values: readonly unknown[]): string {
  const last = values.findLastIndex(value => value !== undefined)
  const written = values
    .slice(0, last + 1)
    .map(value => (value === undefined ? 'undefined' : JSON.stringify(value)))
  return `${name}(${written.join()})`
}

/** The innermost of the calls that stand in a text more than once; undefined where each stands once. */
function repeated(text: string): string | undefined {
  const seen = new Set<string>()
  for (const [call] of text.matchAll(
    /\b(?:text|number|oneOf|optional|list)\((?:[^()/]|\/(?:\\.|[^/])+\/)*\)/g,
  )) {
    if (seen.has(call)) return call
    seen.add(call)
  }
  return undefined
}

/** Shapes as declarations in order; what stands in them more than once gets a name of its own. */
function declared(shapes: Readonly<Record<string, string>>): string {
  let rest = Object.entries(shapes)
    .map(([name, shape]) => `export const ${name} = ${shape}\n`)
    .join('')
  const parts: string[] = []
  for (let part = repeated(rest); part !== undefined; part = repeated(rest)) {
    const name = `part${parts.length}`
    parts.push(`const ${name} = ${part}\n`)
    rest = rest.replaceAll(part, name)
  }
  return parts.join('') + rest
}

const IMPORT = `import { anything, boolean, byField, checked, list, number, object, oneOf, optional, text } from ${JSON.stringify(SHAPES)}\n`

/**
 * Puts in the place of the modules that read stored rows what their schemas come to, so that the page has no schema
 * library. In tests and on the command line these modules read with the schemas themselves.
 */
export function shapesPlugin(): Plugin {
  return {
    name: 'duskcheck-shapes',
    enforce: 'pre',
    load: id => {
      if (id === STORED) return storedModule()
      return id === BACKUP ? backupModule() : undefined
    },
  }
}

/** The text of the module that reads events and entries. */
export function storedModule(): string {
  const shapes = declared({ event: shapeOf(storedEventSchema), entry: shapeOf(recordEntrySchema) })
  return `${IMPORT}${shapes}${reader('parseEvent', 'event')}${reader('parseEntry', 'entry')}`
}

/** The text of the module that reads backup files; it has the entries from the one above. */
export function backupModule(): string {
  const backup = shapeOf(backupSchema).replace(shapeOf(recordEntrySchema), () => 'entry')
  return `${IMPORT}import { entry } from ${JSON.stringify(STORED)}\n${declared({ backup })}${reader('parseBackupFile', 'backup')}`
}

const reader = (name: string, shape: string) => `export const ${name} = value => checked(${shape}, value)\n`
