import type { Answer, CaseFile, WeighIn } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import { highOf, lowOf } from '../../../src/triage/intervals.ts'
import type { Protocol } from '../../../src/triage/prepare.ts'

/** How the second of two cases stands to the first: worse, better known, or measured where the first could not be. */
export type Relation = 'worse' | 'narrower' | 'unmeasured'

/** One choice after another, from the last to the first. */
export interface Way {
  readonly before: Way | undefined
  readonly answer?: readonly [
    question: number,
    answer: Answer | undefined,
    weighIns: readonly WeighIn[] | undefined,
  ]
  readonly concern?: number
}

/** The case file that a way makes; `concernsKnown` tells whether the choice of concerns is answered. */
export function caseOfWay(
  protocol: Protocol,
  end: Way | undefined,
  now: Moment,
  concernsKnown: boolean,
): CaseFile {
  const { logic } = protocol
  const answers: Record<string, Answer> = {}
  const weighIns: WeighIn[] = []
  const chosen: number[] = []
  for (let way = end; way; way = way.before) {
    if (way.concern !== undefined) chosen.push(way.concern)
    if (!way.answer) continue
    const [question, answer, weighed] = way.answer
    if (answer) answers[logic.questions[question]!.id] = answer
    weighIns.push(...(weighed ?? []))
  }
  if (concernsKnown)
    answers[logic.questions[logic.concernQuestion]!.id] = {
      kind: 'several',
      chosen: logic.concerns.filter((_, at) => chosen.includes(at)),
      rest: 'no',
      given: now.instant,
    }
  return { animal: {}, answers, weighIns, events: [], readings: [] }
}

/** Whether a pair of cases comes out against what its relation asks for. */
export const breaks = (relation: Relation, one: number, other: number): boolean =>
  lowOf(other) < lowOf(one) ||
  (relation === 'narrower' ? highOf(other) > highOf(one) : highOf(other) < highOf(one))
