import { type Fault, shown } from './result.ts'

/** What the schema library says of one refused part, as far as it is read here. */
export type Issue = { readonly path: readonly PropertyKey[] } & (
  | { readonly code: 'invalid_type'; readonly expected: string }
  | {
      readonly code: 'too_small'
      readonly minimum: number | bigint
      readonly inclusive?: boolean | undefined
    }
  | { readonly code: 'too_big'; readonly maximum: number | bigint }
  | { readonly code: 'invalid_value'; readonly values: readonly unknown[] }
  | { readonly code: 'invalid_format'; readonly format: string }
  | { readonly code: 'unrecognized_keys'; readonly keys: readonly string[] }
  | { readonly code: 'invalid_union' | 'invalid_key' | 'invalid_element' | 'not_multiple_of' | 'custom' }
)

/** What was read: the value, or everything wrong with it. */
export type Parsed<Value> = { readonly value: Value } | { readonly issues: readonly Issue[] }

function acceptedBy(issue: Issue): string {
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

/** What stands at a path; undefined where there is nothing. */
export function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (here, key) => (typeof here === 'object' && here !== null ? Reflect.get(here, key) : undefined),
    value,
  )
}

/** What a parse at the border refused, one fault for each issue: field, value, what is accepted. */
export function faultsOf(
  { issues }: { readonly issues: readonly Issue[] },
  value: unknown,
  whole: string,
): Fault[] {
  return issues.map(issue => {
    const field = issue.path.map(String).join('.') || whole
    if (issue.code === 'unrecognized_keys') {
      return { field, value: issue.keys.join(', '), accepted: 'only the fields of the published schema' }
    }
    const given = valueAt(value, issue.path)
    return { field, value: given === undefined ? 'missing' : shown(given), accepted: acceptedBy(issue) }
  })
}
