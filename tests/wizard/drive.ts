import { createActor } from 'xstate'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { dangerPartOf } from '../../src/protocol/danger-part.ts'
import type { Protocol } from '../../src/triage/prepare.ts'
import { caseFileOf, type LogEntry, logOfStart } from '../../src/wizard/log.ts'
import { wizardMachine } from '../../src/wizard/machine.ts'

/** The wizard with what the tests, the bench and the proof ask of it. */
export function wizardOf(
  protocol: Protocol,
  now: Moment,
  base?: CaseFile,
  machine = wizardMachine(protocol),
  log: readonly LogEntry[] = [],
) {
  const actor = createActor(machine, { input: { now, log, ...(base ? { base } : {}) } })
  actor.start()
  const snapshot = () => actor.getSnapshot()
  const shown = (): Question | undefined => {
    const metas: ({ readonly question?: string } | undefined)[] = Object.values(snapshot().getMeta())
    const id = metas.find(meta => meta?.question !== undefined)?.question
    return protocol.logic.questions.find(question => question.id === id)
  }
  return {
    send: actor.send.bind(actor),
    snapshot,
    /** The question on the screen, or none at the start and the outcome. */
    shown,
    atOutcome: () => snapshot().hasTag('outcome'),
    answer: (answer: Answer) => {
      const question = shown()
      if (question) actor.send({ type: 'ANSWER', entry: { question: question.id, answer }, now })
    },
    stop: () => actor.stop(),
  }
}

/** What someone says who knows no more: can't tell, else can't measure, else nothing chosen, else the mildest. */
export function saysNothing(question: Question, given: string): Answer {
  if (question.cannotTell) return { kind: 'cannot-tell', given }
  if (question.cannotMeasure) return { kind: 'cannot-measure', given }
  if (question.kind === 'several') return { kind: 'several', chosen: [], rest: 'no', given }
  const last = question.options.at(-1)
  if (last !== undefined) return { kind: 'choice', choice: last, given }
  return { kind: 'cannot-tell', given }
}

/** What the start page asks of a case: which door was taken is told, and nothing of it is asked again. */
function startOf(protocol: Protocol, caseFile: CaseFile, now: Moment): CaseFile {
  const part = dangerPartOf(protocol.logic)
  const species = part.thisAnimal && caseFile.answers[part.thisAnimal.question]
  const concern = caseFile.answers[part.concernQuestion]
  // Only somebody unsure of the animal is asked; and only who has several concerns, or none to name, sees the list.
  const thisAnimal = species?.kind === 'choice' && species.choice === part.thisAnimal?.choice
  const [only, ...others] = concern?.kind === 'several' ? concern.chosen : []
  const door = thisAnimal && only !== undefined && others.length === 0 ? { concerns: [only] } : {}
  return caseFileOf({ ...caseFile, answers: {} }, logOfStart(part, { thisAnimal, ...door }, now.instant))
}

/**
 * Walks a case through the wizard, from the door that fits it; returns the questions shown, and whether the outcome
 * came. The start page and the outcome are not among the questions.
 */
export function walkCase(
  protocol: Protocol,
  caseFile: CaseFile,
  now: Moment,
  machine = wizardMachine(protocol),
) {
  const wizard = wizardOf(protocol, now, startOf(protocol, caseFile, now), machine)
  wizard.send({ type: 'START', now })
  const questions: string[] = []
  while (!wizard.atOutcome() && questions.length < 200) {
    const question = wizard.shown()
    if (!question) break
    questions.push(question.id)
    wizard.answer(caseFile.answers[question.id] ?? saysNothing(question, now.instant))
  }
  const reached = wizard.atOutcome()
  const { caseFile: end } = wizard.snapshot().context
  wizard.stop()
  return { questions, reached, caseFile: end }
}
