/** One thing wrong with something a person gave us, in a form a screen or a terminal can show. */
export interface Fault {
  /** Where: a path such as `answers.reaction` or `weighIns.2.massGrams`. */
  readonly field: string
  /** What was given, as text; shortened when long. */
  readonly value: string
  /** What would have been accepted, in plain words. */
  readonly accepted: string
}

/** Expected failures are values: either the thing asked for, or every fault found. */
export type Result<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** The successful result that carries `value`. */
export function success<Value>(value: Value): Result<Value> {
  return { ok: true, value }
}

/** The failed result that carries every fault found. */
export function failure<Value>(faults: readonly Fault[]): Result<Value> {
  return { ok: false, faults }
}

/** Any value as short text for a fault: strings as they are, the rest as JSON, cut at 80 characters. */
export function shown(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? String(value))
  return text.length > 80 ? `${text.slice(0, 77)}...` : text
}
