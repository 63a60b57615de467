import type { Issue } from '../../shared/parse-faults.ts'

/**
 * What the built page checks stored rows with. The schemas of shared/ stay the only source: the build writes each as
 * calls of these functions (src/app/build/shapes-plugin.ts), at a fifth of the size of the schema library. What they
 * refuse, and in which words, is what the library refuses; a test holds the two together.
 */
export type Shape = (value: unknown, path: readonly PropertyKey[], issues: Issue[]) => void

/** Text of a length in Unicode code points, and where it has a format, of this form. */
export function text(least = 0, most = Infinity, pattern?: RegExp, format = ''): Shape {
  return (value, path, issues) => {
    if (typeof value !== 'string') issues.push({ code: 'invalid_type', expected: 'string', path })
    else {
      const { length } = [...value]
      if (length < least) issues.push({ code: 'too_small', minimum: least, inclusive: true, path })
      if (length > most) issues.push({ code: 'too_big', maximum: most, path })
      if (pattern?.test(value) === false) issues.push({ code: 'invalid_format', format, path })
    }
  }
}

/** A finite number within bounds; `above` where the least itself is refused. */
export function number(least = -Infinity, most = Infinity, kind = 'number', above = false): Shape {
  return (value, path, issues) => {
    const isWhole = kind === 'int'
    if (!Number.isFinite(value)) issues.push({ code: 'invalid_type', expected: 'number', path })
    else if (isWhole && !Number.isInteger(value)) issues.push({ code: 'invalid_type', expected: kind, path })
    else {
      const given = Number(value)
      if (above ? given <= least : given < least)
        issues.push({ code: 'too_small', minimum: least, inclusive: !above, path })
      if (given > most) issues.push({ code: 'too_big', maximum: most, path })
    }
  }
}

export const boolean: Shape = (value, path, issues) => {
  if (typeof value !== 'boolean') issues.push({ code: 'invalid_type', expected: 'boolean', path })
}

/** Whatever it is, as long as the field is there. */
export const anything: Shape = () => {}

/** One of these values. */
export function oneOf(...values: readonly unknown[]): Shape {
  return (value, path, issues) => {
    if (!values.includes(value)) issues.push({ code: 'invalid_value', values, path })
  }
}

export function list(shape: Shape): Shape {
  return (value, path, issues) => {
    if (Array.isArray(value)) for (const [at, one] of value.entries()) shape(one, [...path, at], issues)
    else issues.push({ code: 'invalid_type', expected: 'array', path })
  }
}

/** What may be missing. */
export function optional(shape: Shape): Shape {
  return (value, path, issues) => {
    if (value !== undefined) shape(value, path, issues)
  }
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** These fields and no others. */
export function object(fields: Readonly<Record<string, Shape>>): Shape {
  return (value, path, issues) => {
    if (!isObject(value)) {
      issues.push({ code: 'invalid_type', expected: 'object', path })
      return
    }
    for (const [name, shape] of Object.entries(fields))
      if (shape === anything && !(name in value))
        issues.push({ code: 'invalid_type', expected: 'nonoptional', path: [...path, name] })
      else shape(Reflect.get(value, name), [...path, name], issues)
    const keys = Object.keys(value).filter(key => !Object.hasOwn(fields, key))
    if (keys.length > 0) issues.push({ code: 'unrecognized_keys', keys, path })
  }
}

/** The shape that goes with what the field `by` says. */
export function byField(by: string, shapes: Readonly<Record<string, Shape>>): Shape {
  return (value, path, issues) => {
    if (!isObject(value)) {
      issues.push({ code: 'invalid_type', expected: 'object', path })
      return
    }
    const kind: unknown = Reflect.get(value, by)
    const shape = typeof kind === 'string' && Object.hasOwn(shapes, kind) ? shapes[kind] : undefined
    if (shape) shape(value, path, issues)
    else issues.push({ code: 'invalid_union', path: [...path, by] })
  }
}

/** What is wrong with a value, or the value as it is. */
export function checked(shape: Shape, value: unknown) {
  const issues: Issue[] = []
  shape(value, [], issues)
  return issues.length > 0 ? { issues } : { value }
}
