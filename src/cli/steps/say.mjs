// Everything these steps tell the person goes to stderr, so that stdout stays clean for JSON.

/** @param {string} line */
export function say(line) {
  process.stderr.write(`${line}\n`)
}

/** @param {number} sinceMs as from `performance.now()` */
export function secondsSince(sinceMs) {
  return `${((performance.now() - sinceMs) / 1000).toFixed(1)} s`
}

/** A failure that is told to the person as it stands, without a stack. */
export class PlainFailure extends Error {
  /** @override */
  name = 'PlainFailure'
}
