import type { CaseFile } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord } from '../../../shared/record.ts'
import type { ComparisonPolicy } from '../../measure/policy.ts'
import { recentWeighIns } from '../../measure/recent.ts'

/**
 * What the record knows of an animal, as the beginning of a case file. A hatch day that is only likely says nothing
 * of its age: that is asked. Of a long record it takes the weights that speak of today.
 */
export function caseOf(
  { animal, weighIns, events }: AnimalRecord,
  policy: ComparisonPolicy,
  now: Moment,
): CaseFile {
  const { name, species, colourLine, hatchedOn, hatchedCertainty = 'sure' } = animal
  return {
    animal: {
      name,
      ...(species === undefined ? {} : { species }),
      ...(colourLine === undefined ? {} : { colourLine }),
      ...(hatchedOn !== undefined && hatchedCertainty === 'sure' ? { hatchedOn } : {}),
    },
    answers: {},
    weighIns: recentWeighIns(weighIns, events, policy, now.instant).map(
      ({ at, massGrams, scaleStepGrams }) => ({
        at,
        massGrams,
        ...(scaleStepGrams === undefined ? {} : { scaleStepGrams }),
      }),
    ),
    events: events.map(({ at, kind, share, seen }) => ({
      at,
      kind,
      ...(share === undefined ? {} : { share }),
      ...(seen === undefined ? {} : { seen }),
    })),
    readings: [],
  }
}
