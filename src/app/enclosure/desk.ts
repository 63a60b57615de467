import type { CaseFile } from '../../../shared/case-file.ts'
import type { Frame } from '../../../shared/compiled.ts'
import type { CompiledEnclosure, EnclosureItem } from '../../../shared/enclosure.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord } from '../../../shared/record.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import type { Draft, Drafts } from './drafts.ts'
import type { ReadLogger } from './read-logger.ts'

/** The case under way, where the check was opened from its outcome. */
export interface CaseBehind {
  /** Another one for another case. */
  readonly caseKey: string
  readonly caseFile: Pick<CaseFile, 'answers'>
  readonly concerns: readonly string[]
}

/** What every screen of the check is given. */
export interface Desk {
  readonly enclosure: CompiledEnclosure
  readonly drafts: Drafts
  readonly faults: Readonly<Record<string, string>>
  readonly change: (item: string, draft: Draft) => void
  readonly basisNames: Frame['basisNames']
  readonly concern: string | undefined
  readonly concerns: readonly { readonly id: string; readonly name: string }[]
  readonly chooseConcern: (concern: string | undefined) => void
  /** The animal that the readings are of, and those they may be kept with. */
  readonly kept: AnimalRecord | undefined
  readonly animals: readonly AnimalRecord[]
  readonly store: KeeperStore
  readonly readLogger: ReadLogger
  readonly clock: () => Moment
  readonly locale: string
  /** The address of one of its screens. */
  readonly at: (part?: string) => string
  readonly go: (hash: string) => void
  /** Its pages of questions, in order. */
  readonly pages: readonly DeskPage[]
}

export interface DeskPage {
  readonly id: string
  readonly name: string
  readonly items: readonly EnclosureItem[]
}

export const RESULT = 'result'
export const LOGGER = 'file'

/** How many items of a page have an answer. */
export function told({ items }: DeskPage, drafts: Drafts): number {
  return items.filter(({ id }) => {
    const draft = drafts[id]
    return draft !== undefined && Boolean(draft.text?.trim() || draft.picked || draft.ticked?.length)
  }).length
}
