import type * as z from 'zod/mini'
import { type Fault, shown } from './result.ts'

function acceptedBy(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected
    case 'too_small':
      return `${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`
    case 'too_big':
      return `at most ${issue.maximum}`
    case 'invalid_value':
      return `one of ${issue.values.map(String).join(', ')}`
    case 'invalid_format':
      if (issue.format === 'datetime') return 'an instant such as 2026-11-25T02:10:00Z'
      return issue.format === 'date' ? 'a day such as 2026-11-25' : issue.format
    default:
      return 'the form the published schema gives'
  }
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (here, key) => (typeof here === 'object' && here !== null ? Reflect.get(here, key) : undefined),
    value,
  )
}

/** What a parse at the border refused, one fault for each issue: field, value, what is accepted. */
export function faultsOf(error: z.core.$ZodError, value: unknown, whole: string): Fault[] {
  return error.issues.map(issue => {
    const field = issue.path.map(String).join('.') || whole
    if (issue.code === 'unrecognized_keys') {
      return { field, value: issue.keys.join(', '), accepted: 'only the fields of the published schema' }
    }
    const given = valueAt(value, issue.path)
    return { field, value: given === undefined ? 'missing' : shown(given), accepted: acceptedBy(issue) }
  })
}
