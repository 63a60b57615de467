/** @typedef {{ passed: number, failed: number }} Counts */

/** @type {Counts} */
export const NONE = { passed: 0, failed: 0 }

/** @param {unknown} value */
function number(value) {
  return typeof value === 'number' ? value : 0
}

/**
 * The counts of Vitest's JSON report.
 *
 * @param {{ numPassedTests?: unknown, numFailedTests?: unknown }} report
 * @returns {Counts}
 * @example vitestCounts({ numPassedTests: 3, numFailedTests: 1 }) // { passed: 3, failed: 1 }
 */
export function vitestCounts(report) {
  return { passed: number(report.numPassedTests), failed: number(report.numFailedTests) }
}

/**
 * The counts of Playwright's JSON report; a test that passed only when tried again counts as passed.
 *
 * @param {{ stats?: { expected?: unknown, flaky?: unknown, unexpected?: unknown } }} report
 * @returns {Counts}
 * @example playwrightCounts({ stats: { expected: 2, flaky: 0, unexpected: 1 } }) // { passed: 2, failed: 1 }
 */
export function playwrightCounts(report) {
  const stats = report.stats ?? {}
  return { passed: number(stats.expected) + number(stats.flaky), failed: number(stats.unexpected) }
}

/**
 * The closing line. A step that ended badly without a failed test (a type error, say) counts as one failure,
 * so that a failed run never reads "0 failed".
 *
 * @param {Counts[]} counts
 * @param {boolean} endedBadly
 * @returns {string}
 * @example closingLine([{ passed: 2, failed: 0 }], true) // '2 passed, 1 failed'
 */
export function closingLine(counts, endedBadly) {
  const passed = counts.reduce((sum, one) => sum + one.passed, 0)
  const failed = counts.reduce((sum, one) => sum + one.failed, 0)
  return `${passed} passed, ${endedBadly ? Math.max(failed, 1) : failed} failed`
}
