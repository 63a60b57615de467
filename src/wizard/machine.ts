import { assign, setup } from 'xstate'
import { EMPTY_CASE_FILE } from '../../shared/answers.ts'
import type { CaseFile } from '../../shared/case-file.ts'
import type { Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import { HIGHEST_RANK } from '../../shared/urgency.ts'
import { mattering, type Standing, standingOf } from '../triage/bounds.ts'
import type { Protocol } from '../triage/prepare.ts'
import { caseFileOf, type LogEntry, withEntry } from './log.ts'

/**
 * The wizard as a statechart built from the protocol: one state per question, in compound states by phase and
 * concern, in the protocol's order. A question has one way on, to the next in order: on ANSWER, or at once when it
 * does not matter any more. That guard is the only decision; the drawing is a line with by-passes.
 */

export interface WizardContext {
  /** The record's part of the case file, before any answer. */
  readonly base: CaseFile
  readonly log: readonly LogEntry[]
  readonly caseFile: CaseFile
  readonly now: Moment
  /** The question to show whatever the guard says: after Back, or when an answer is changed. */
  readonly wanted: string | undefined
  /** The answer that stands in the shown question already. */
  readonly draft: LogEntry | undefined
  /** Questions for the vet's page that were skipped. */
  readonly skipped: readonly string[]
}

export type WizardEvent =
  /** Begin or go on; `question` opens at that danger screen. */
  | { readonly type: 'START'; readonly now: Moment; readonly question?: string }
  | { readonly type: 'ANSWER'; readonly entry: LogEntry; readonly now: Moment }
  | { readonly type: 'BACK'; readonly now: Moment }
  /** Change the answer to a question. */
  | { readonly type: 'GO'; readonly question: string; readonly now: Moment }
  /** From the outcome: the questions for the vet's page. */
  | { readonly type: 'DETAILS'; readonly now: Moment }
  | { readonly type: 'SKIP'; readonly now: Moment }

export interface WizardInput {
  readonly now: Moment
  readonly base?: CaseFile
  readonly log?: readonly LogEntry[]
}

interface Position {
  readonly caseFile: CaseFile
  readonly now: Moment
  readonly standing: Standing
  readonly matters: ReadonlySet<number>
}

/** Builds the chart of a protocol. */
export function wizardMachine(protocol: Protocol) {
  const { logic } = protocol
  // Asked for by every guard on the way from one question to the next; it depends on these two alone.
  let last: Position | undefined
  const positionOf = ({ caseFile, now }: WizardContext): Position => {
    if (last?.caseFile === caseFile && last.now === now) return last
    const standing = standingOf(protocol, caseFile, now)
    last = { caseFile, now, standing, matters: new Set(mattering(protocol, standing)) }
    return last
  }
  const dangerScreens = logic.questions.flatMap(({ phase: name }, index) =>
    name === 'danger' ? [index] : [],
  )
  const isOpen = (context: WizardContext, question: number) => {
    const status = positionOf(context).standing.known.statuses[question]
    return status === 'open' || status === 'lapsed'
  }

  const wizard = setup({
    types: {
      context: {} as WizardContext,
      events: {} as WizardEvent,
      input: {} as WizardInput,
      tags: {} as 'start' | 'question' | 'outcome',
      meta: {} as { readonly question: string },
    },
    guards: {
      passes: ({ context }, { question }: { question: number }) =>
        context.wanted !== logic.questions[question]?.id && !positionOf(context).matters.has(question),
      passesForVet: ({ context }, { question }: { question: number }) => {
        const id = logic.questions[question]?.id ?? ''
        return context.wanted !== id && (context.skipped.includes(id) || !isOpen(context, question))
      },
      answers: ({ event }, { question }: { question: string }) =>
        event.type === 'ANSWER' && event.entry.question === question,
      wants: ({ context }, { question }: { question: string }) => context.wanted === question,
      dangerFound: ({ context }) =>
        context.wanted === undefined && positionOf(context).standing.lower === HIGHEST_RANK,
      notSettled: ({ context }) => positionOf(context).matters.size > 0,
      dangerOpen: ({ context }) => dangerScreens.some(question => positionOf(context).matters.has(question)),
      hasAnswers: ({ context }) => context.log.length > 0,
    },
    actions: {
      store: assign(({ context, event }) => {
        if (event.type !== 'ANSWER') return {}
        const log = withEntry(context.log, event.entry)
        return {
          log,
          caseFile: caseFileOf(context.base, log),
          now: event.now,
          wanted: undefined,
          draft: undefined,
        }
      }),
      dropLast: assign(({ context, event }) => {
        const draft = context.log.at(-1)
        const log = context.log.slice(0, -1)
        return {
          log,
          draft,
          wanted: draft?.question,
          caseFile: caseFileOf(context.base, log),
          now: event.now,
        }
      }),
      want: assign(({ context, event }) => {
        const question = event.type === 'GO' || event.type === 'START' ? event.question : undefined
        return {
          wanted: question,
          draft: context.log.find(entry => entry.question === question),
          now: event.now,
        }
      }),
      tick: assign(({ event }) => ({ now: event.now, wanted: undefined, draft: undefined })),
    },
  })

  const phaseId = (question: Question) =>
    isForVet(question)
      ? 'for-the-vet'
      : question.phase === 'concerns'
        ? `about-${question.concern}`
        : question.phase
  const isForVet = (question: Question) => question.forHandover || question.phase === 'handover'
  const reference = (question: Question) => `#${phaseId(question)}.${question.id}`

  const phase = (id: string, after: string) => {
    const questions = logic.questions.flatMap((question, index) =>
      question.phase !== 'care' && phaseId(question) === id ? [{ question, index }] : [],
    )
    const states = Object.fromEntries(
      questions.map(({ question, index }, place) => {
        const following = questions[place + 1]?.question
        const onward = following ? reference(following) : after
        const state = wizard.createStateConfig({
          tags: ['question'],
          meta: { question: question.id },
          always: {
            guard: { type: isForVet(question) ? 'passesForVet' : 'passes', params: { question: index } },
            target: onward,
          },
          on: {
            ANSWER: {
              guard: { type: 'answers', params: { question: question.id } },
              target: onward,
              actions: 'store',
            },
            SKIP: isForVet(question)
              ? {
                  target: onward,
                  actions: assign(({ context, event }) => ({
                    skipped: [...context.skipped, question.id],
                    wanted: undefined,
                    now: event.now,
                  })),
                }
              : [],
          },
        })
        return [question.id, state] as const
      }),
    )
    const first = questions[0]?.question.id ?? 'nothing-to-ask'
    return wizard.createStateConfig({
      id,
      initial: first,
      states: questions.length > 0 ? states : { [first]: { always: { target: after } } },
      ...(id === 'for-the-vet' ? {} : { always: { guard: 'dangerFound', target: '#outcome' } }),
    })
  }

  const line = ['danger', 'concern', ...logic.concerns.map(concern => `about-${concern}`), 'common']
  const phases = Object.fromEntries(
    line.map((id, place) => [
      id,
      phase(id, id === 'danger' ? '#end-of-danger' : `#${line[place + 1] ?? 'end-of-questions'}`),
    ]),
  )
  const askable = logic.questions.filter(({ phase: name }) => name !== 'care')

  return wizard.createMachine({
    id: 'wizard',
    context: ({ input }) => {
      const base = input.base ?? EMPTY_CASE_FILE
      const log = input.log ?? []
      return {
        base,
        log,
        caseFile: caseFileOf(base, log),
        now: input.now,
        wanted: undefined,
        draft: undefined,
        skipped: [],
      }
    },
    initial: 'start',
    on: {
      GO: { target: '#dispatch', actions: 'want' },
      BACK: { guard: 'hasAnswers', target: '#dispatch', actions: 'dropLast' },
    },
    states: {
      start: { tags: ['start'], on: { START: { target: '#dispatch', actions: 'want' } } },
      /** Goes to the question that is wanted, else to the head of the line. */
      dispatch: {
        id: 'dispatch',
        always: [
          ...askable.map(question => ({
            guard: { type: 'wants' as const, params: { question: question.id } },
            target: reference(question),
          })),
          { target: '#danger' },
        ],
      },
      ...phases,
      /** A door may have led past earlier danger screens: they come before anything else. */
      'end-of-danger': {
        id: 'end-of-danger',
        always: [{ guard: 'dangerOpen', target: '#danger' }, { target: '#concern' }],
      },
      /** A jump may have left earlier questions unasked: then the line is walked once more. */
      'end-of-questions': {
        id: 'end-of-questions',
        always: [{ guard: 'notSettled', target: '#danger' }, { target: '#outcome' }],
      },
      'for-the-vet': phase('for-the-vet', '#outcome'),
      outcome: {
        id: 'outcome',
        tags: ['outcome'],
        entry: assign({ wanted: undefined }),
        on: {
          /** The one tap that changes the first aid is answered on the outcome itself. */
          ANSWER: { actions: 'store' },
          DETAILS: { target: '#for-the-vet', actions: 'tick' },
        },
      },
    },
  })
}

export type WizardMachine = ReturnType<typeof wizardMachine>
