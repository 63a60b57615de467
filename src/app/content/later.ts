import type {
  CareOfLogic,
  EvidenceWords,
  Frame,
  Logic,
  SourceWords,
  Words,
} from '../../../shared/compiled.ts'
import type { SearchWords } from '../../../shared/search.ts'

/** What the first screens do without: the chart with its screens, and all that it decides with. */
export interface Rest {
  readonly screens: typeof import('../later-screens.tsx')
  readonly logic: Logic
  readonly frame: Frame
  readonly dangerWords: Words
}

/** The words of everything behind the danger screens. */
export interface LaterContent {
  readonly commonWords: Words
  readonly concernWords: Readonly<Record<string, Words>>
  readonly evidence: Readonly<Record<string, EvidenceWords>>
  readonly sources: Readonly<Record<string, SourceWords>>
  readonly care: CareOfLogic
}

/**
 * Fetches the chart, what it decides with, and what reads the store. Like all that follows it is fetched every time
 * and in the same order, so that what the page asks its host for tells nothing of what was answered.
 */
export async function loadRest(): Promise<Rest> {
  const screens = await import('../later-screens.tsx')
  const { default: logic } = await import('virtual:protocol/logic')
  const { default: frame } = await import('virtual:protocol/frame')
  await import('../../records/rows.ts')
  return { screens, logic, ...frame }
}

/** What finds the door, and how owners say it. */
export interface Search {
  readonly findDoors: typeof import('../../search/find-doors.ts').findDoors
  readonly vocabulary: SearchWords
}

/** Fetches the search, after the chart. */
export async function loadSearch(): Promise<Search> {
  const { findDoors } = await import('../../search/find-doors.ts')
  const { default: vocabulary } = await import('virtual:protocol/search')
  return { findDoors, vocabulary }
}

/**
 * Fetches the keeper's record, after everything else, and opens its store; behind it, and waited for by nobody, what
 * an outcome says of the animal's home.
 */
export async function loadRecord() {
  const screens = await import('../record/Record.tsx')
  await screens.fetchRest()
  const home = import('../enclosure/PutRight.tsx').then(async part => {
    await part.addStyle()
    return part
  })
  return { ...screens, keeper: screens.openKeeperStore(), home }
}
export type RecordRoom = Awaited<ReturnType<typeof loadRecord>>

/** Fetches the clinic's part, last of all. */
export async function loadClinic() {
  const screens = await import('../clinic/Clinic.tsx')
  const { default: content } = await import('virtual:protocol/handover')
  await screens.addStyle()
  return { ...screens, content }
}
export type ClinicRoom = Awaited<ReturnType<typeof loadClinic>>

/** Fetches the rest of the content, after the search. */
export async function loadLater(): Promise<LaterContent> {
  const { default: care } = await import('virtual:protocol/care')
  const { default: commonWords } = await import('virtual:protocol/common')
  const { loadConcernWords } = await import('virtual:protocol/concerns')
  const concernWords = await loadConcernWords()
  const { default: cited } = await import('virtual:protocol/evidence')
  return { commonWords, concernWords, ...cited, care }
}
