import type { CaseFile } from '../../../shared/case-file.ts'
import type { AnimalRecord } from '../../../shared/record.ts'

/**
 * What the record knows of an animal, as the beginning of a case file. A hatch day that is only likely says nothing
 * of its age: that is asked.
 */
export function caseOf({ animal, weighIns, events }: AnimalRecord): CaseFile {
  const { name, species, colourLine, hatchedOn, hatchedCertainty = 'sure' } = animal
  return {
    animal: {
      name,
      ...(species === undefined ? {} : { species }),
      ...(colourLine === undefined ? {} : { colourLine }),
      ...(hatchedOn !== undefined && hatchedCertainty === 'sure' ? { hatchedOn } : {}),
    },
    answers: {},
    weighIns: weighIns.map(({ at, massGrams, scaleStepGrams }) => ({
      at,
      massGrams,
      ...(scaleStepGrams === undefined ? {} : { scaleStepGrams }),
    })),
    events: events.map(({ at, kind, share, seen }) => ({
      at,
      kind,
      ...(share === undefined ? {} : { share }),
      ...(seen === undefined ? {} : { seen }),
    })),
    readings: [],
  }
}
