import type { Assessment } from '../../../shared/assessment.ts'
import type { CaseFile } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { RecordEntry } from '../../../shared/record.ts'
import { change, saveWeighIn } from '../../records/actions.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'

/** A check that came to its outcome, with everything it used. */
export interface FinishedCheck {
  /** Its own name, the same each time it is kept: looking at an outcome twice keeps one check. */
  readonly checkId: string
  readonly assessment: Assessment
  readonly caseFile: CaseFile
  readonly now: Moment
}

/**
 * Keeps a finished check with the animal it was for, and puts the weights it asked for on record. Does nothing where
 * the animal is not on record any more.
 */
export async function keepCheck(store: KeeperStore, animalId: string, check: FinishedCheck): Promise<void> {
  const kept = store.record().animals.find(one => one.animalId === animalId)
  if (kept === undefined) return
  const { checkId, assessment, caseFile, now } = check
  const known = new Set(kept.weighIns.map(({ at, massGrams }) => `${Date.parse(at)} ${massGrams}`))
  const entries: RecordEntry[] = caseFile.weighIns
    .filter(({ at, massGrams }) => !known.has(`${Date.parse(at)} ${massGrams}`))
    .map(weighIn => saveWeighIn(store.writing(now.instant), animalId, weighIn))
  const { urgency, seenBy, protocol } = assessment
  if (urgency !== undefined)
    entries.push(
      change(store.writing(now.instant), animalId, checkId, {
        kind: 'assessment',
        assessment: {
          at: now.instant,
          zone: now.zone,
          protocol: { species: protocol.species, version: protocol.version, hash: protocol.hash },
          caseFile,
          urgency,
          ...(seenBy === undefined ? {} : { mustBeSeenBy: seenBy.instant }),
        },
      }),
    )
  await store.append(entries)
}
