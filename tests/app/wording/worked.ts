import type { Assessment } from '../../../shared/assessment.ts'
import type { CaseFile } from '../../../shared/case-file.ts'
import { type Book, bookOf } from '../../../src/app/wording/book.ts'
import type { Told } from '../../../src/app/wording/outcome.ts'
import { assess } from '../../../src/triage/assess.ts'
import { readCaseFile } from '../../../src/triage/read-case-file.ts'
import { realCompiled, realProtocol } from '../../laws/real-protocol.ts'
import { patterns } from '../../published/cases.ts'

const compiled = realCompiled()
export const book: Book = bookOf(compiled.logic, compiled.frame, compiled.dangerWords, compiled)

export interface Worked extends Told {
  readonly name: string
}

/** The outcome of every worked case that settles, with the real words. */
export const worked: readonly Worked[] = patterns.flatMap(({ id, caseFile: written, now }): Worked[] => {
  const read = readCaseFile(compiled.logic, written, now)
  if (!read.ok) return []
  const assessment = assess(realProtocol(), read.value, now)
  return assessment.settled ? [{ name: id, book, assessment, caseFile: read.value, locale: 'en-GB' }] : []
})

export const at = (told: Told, instant: string, zone: string): Told => ({
  ...told,
  assessment: { ...told.assessment, now: { instant, zone } },
})

export const withCase = (told: Told, part: Partial<CaseFile>): Told => ({
  ...told,
  caseFile: { ...told.caseFile, ...part },
})

export const withCare = (told: Told, care: Partial<Assessment['care']>): Told => ({
  ...told,
  assessment: { ...told.assessment, care: { ...told.assessment.care, ...care } },
})
