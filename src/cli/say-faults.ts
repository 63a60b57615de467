import type { Fault } from '../../shared/result.ts'

/** One line per fault on standard error: field, value, accepted. */
export function sayFaults(faults: readonly Fault[]): void {
  for (const { field, value, accepted } of faults) {
    process.stderr.write(`${field}: given: ${value}; accepted: ${accepted}\n`)
  }
}
