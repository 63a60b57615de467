import { createActor } from 'xstate'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Protocol } from '../../src/triage/prepare.ts'
import { logOfThisAnimal } from '../../src/wizard/log.ts'
import { wizardMachine } from '../../src/wizard/machine.ts'

/** The wizard with what the tests, the bench and the proof ask of it. */
export function wizardOf(
  protocol: Protocol,
  now: Moment,
  base?: CaseFile,
  machine = wizardMachine(protocol),
) {
  const actor = createActor(machine, { input: { now, ...(base ? { base } : {}) } })
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

/** Walks a case through the wizard; returns the questions shown, and whether the outcome came. */
export function walkCase(
  protocol: Protocol,
  caseFile: CaseFile,
  now: Moment,
  machine = wizardMachine(protocol),
) {
  // The start button says which animal it is; only somebody unsure is asked.
  const [said] = logOfThisAnimal(protocol.logic, now.instant)
  const told = said && caseFile.answers[said.question]
  const sure = told?.kind === 'choice' && said?.answer.kind === 'choice' && told.choice === said.answer.choice
  const answers = said && sure ? { [said.question]: said.answer } : {}
  const wizard = wizardOf(protocol, now, { ...caseFile, answers }, machine)
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
