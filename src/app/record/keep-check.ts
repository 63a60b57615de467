import type { CaseFile } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { RecordEntry } from '../../../shared/record.ts'
import { change, saveWeighIn } from '../../records/actions.ts'
import type { KeeperStore } from '../../records/keeper-store.ts'
import { assess } from '../../triage/assess.ts'
import type { Protocol } from '../../triage/prepare.ts'

/** A check that came to its outcome. */
export interface FinishedCheck {
  /** Its own name, the same each time it is kept: looking at an outcome twice keeps one check. */
  readonly checkId: string
  readonly caseFile: CaseFile
  readonly now: Moment
}

/**
 * Keeps a finished check with the animal it was for, with everything it used, and puts the weights it asked for on
 * record. Does nothing where the animal is not on record any more.
 */
export async function keepCheck(
  store: KeeperStore,
  animalId: string,
  protocol: Protocol,
  { checkId, caseFile, now }: FinishedCheck,
): Promise<void> {
  const kept = store.record().animals.find(one => one.animalId === animalId)
  if (kept === undefined) return
  const known = new Set(kept.weighIns.map(({ at, massGrams }) => `${Date.parse(at)} ${massGrams}`))
  const entries: RecordEntry[] = caseFile.weighIns
    .filter(({ at, massGrams }) => !known.has(`${Date.parse(at)} ${massGrams}`))
    .map(weighIn => saveWeighIn(store.writing(now.instant), animalId, weighIn))
  const { urgency, seenBy, protocol: stamp } = assess(protocol, caseFile, now)
  const before = kept.assessments.find(({ itemId }) => itemId === checkId)
  if (urgency !== undefined && before?.at !== now.instant)
    entries.push(
      change(store.writing(now.instant), animalId, checkId, {
        kind: 'assessment',
        assessment: {
          at: now.instant,
          zone: now.zone,
          protocol: { species: stamp.species, version: stamp.version, hash: stamp.hash },
          caseFile,
          urgency,
          ...(seenBy === undefined ? {} : { mustBeSeenBy: seenBy.instant }),
        },
      }),
    )
  if (entries.length > 0) await store.append(entries)
}
