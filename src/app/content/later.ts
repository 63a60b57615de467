import type { CareOfLogic, EvidenceWords, SourceWords, Words } from '../../../shared/compiled.ts'

/** The words that the first screens do without. */
export interface LaterContent {
  readonly commonWords: Words
  readonly concernWords: Readonly<Record<string, Words>>
  readonly evidence: Readonly<Record<string, EvidenceWords>>
  readonly sources: Readonly<Record<string, SourceWords>>
  readonly care: CareOfLogic
}

/**
 * Fetches the rest of the content, every time all of it and in the same order, so that what the page asks its host
 * for tells nothing of what was answered.
 */
export async function loadLater(): Promise<LaterContent> {
  const { default: commonWords } = await import('virtual:protocol/common')
  const { loadConcernWords } = await import('virtual:protocol/concerns')
  const concernWords = await loadConcernWords()
  const { default: cited } = await import('virtual:protocol/evidence')
  const { default: care } = await import('virtual:protocol/care')
  return { commonWords, concernWords, ...cited, care }
}
