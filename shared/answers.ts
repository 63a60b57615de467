import type { CaseFile } from './case-file.ts'

/**
 * The words and the empty value of answers that the first screens need. They stand apart from the schemas of
 * case-file.ts so that the first load carries no schema library.
 */

/** The two ways of not knowing that are answers. "Not looked yet" is not an answer. */
export const CANNOT_TELL = 'cannot-tell'
export const CANNOT_MEASURE = 'cannot-measure'

/** The case file in which nothing has been said yet. */
export const EMPTY_CASE_FILE: CaseFile = { animal: {}, answers: {}, weighIns: [], events: [], readings: [] }
