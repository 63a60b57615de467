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

/** When a way may be taken; `question` is its place in the protocol, or its id where the event or context names it. */
export type ChartGuard =
  | { readonly type: 'passes' | 'passesForVet'; readonly params: { readonly question: number } }
  | { readonly type: 'answers' | 'wants'; readonly params: { readonly question: string } }
  | { readonly type: 'dangerFound' | 'notSettled' | 'dangerOpen' | 'hasAnswers' }

/** What a way does with the context. */
export type ChartAction =
  | { readonly type: 'store' | 'dropLast' | 'want' | 'tick' | 'letGo' }
  | { readonly type: 'skip'; readonly params: { readonly question: string } }

/** One way on; without a target the state stays. */
export interface ChartWay {
  readonly guard?: ChartGuard
  /** `#id` of a state that has one, or `#id.child`. */
  readonly target?: string
  readonly actions?: ChartAction
}

/** A state, in the words of statecharts; without `states` it is one where the wizard can stand. */
export interface ChartState {
  readonly id?: string
  readonly initial?: string
  readonly states?: Readonly<Record<string, ChartState>>
  readonly tags?: readonly ('start' | 'question' | 'outcome')[]
  readonly meta?: { readonly question: string }
  /** Taken at once, the first that may be. */
  readonly always?: ChartWay | readonly ChartWay[]
  readonly on?: Readonly<Partial<Record<WizardEvent['type'], ChartWay>>>
  readonly entry?: ChartAction
}

/** The states, and what the guards and actions in them mean. */
export interface WizardChart {
  readonly root: ChartState & {
    readonly initial: string
    readonly states: Readonly<Record<string, ChartState>>
  }
  readonly contextOf: (input: WizardInput) => WizardContext
  readonly holds: (guard: ChartGuard, context: WizardContext, event: WizardEvent) => boolean
  readonly changed: (
    action: ChartAction,
    context: WizardContext,
    event: WizardEvent,
  ) => Partial<WizardContext>
}

function contextOf({ now, base = EMPTY_CASE_FILE, log = [] }: WizardInput): WizardContext {
  const caseFile = caseFileOf(base, log)
  return { base, log, caseFile, now, wanted: undefined, draft: undefined, skipped: [] }
}

/** Builds the chart of a protocol. */
export function wizardChart(protocol: Protocol): WizardChart {
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

  const holds: WizardChart['holds'] = (guard, context, event) => {
    switch (guard.type) {
      case 'passes': {
        const { question } = guard.params
        return context.wanted !== logic.questions[question]?.id && !positionOf(context).matters.has(question)
      }
      case 'passesForVet': {
        const { question } = guard.params
        const id = logic.questions[question]?.id ?? ''
        return context.wanted !== id && (context.skipped.includes(id) || !isOpen(context, question))
      }
      case 'answers':
        return event.type === 'ANSWER' && event.entry.question === guard.params.question
      case 'wants':
        return context.wanted === guard.params.question
      case 'dangerFound':
        return context.wanted === undefined && positionOf(context).standing.lower === HIGHEST_RANK
      case 'notSettled':
        return positionOf(context).matters.size > 0
      case 'dangerOpen':
        return dangerScreens.some(question => positionOf(context).matters.has(question))
      case 'hasAnswers':
        return context.log.length > 0
    }
  }

  const changed: WizardChart['changed'] = (action, context, event) => {
    const { now } = event
    switch (action.type) {
      case 'store': {
        if (event.type !== 'ANSWER') return {}
        const log = withEntry(context.log, event.entry)
        return { log, caseFile: caseFileOf(context.base, log), now, wanted: undefined, draft: undefined }
      }
      case 'dropLast': {
        const draft = context.log.at(-1)
        const log = context.log.slice(0, -1)
        return { log, draft, wanted: draft?.question, caseFile: caseFileOf(context.base, log), now }
      }
      case 'want': {
        const question = event.type === 'GO' || event.type === 'START' ? event.question : undefined
        return { wanted: question, draft: context.log.find(entry => entry.question === question), now }
      }
      case 'tick':
        return { now, wanted: undefined, draft: undefined }
      case 'letGo':
        return { wanted: undefined }
      case 'skip':
        return { skipped: [...context.skipped, action.params.question], wanted: undefined, now }
    }
  }

  const phaseId = (question: Question) =>
    isForVet(question)
      ? 'for-the-vet'
      : question.phase === 'concerns'
        ? `about-${question.concern}`
        : question.phase
  const isForVet = (question: Question) => question.forHandover || question.phase === 'handover'
  const reference = (question: Question) => `#${phaseId(question)}.${question.id}`

  const phase = (id: string, after: string): ChartState => {
    const questions = logic.questions.flatMap((question, index) =>
      question.phase !== 'care' && phaseId(question) === id ? [{ question, index }] : [],
    )
    const states = Object.fromEntries(
      questions.map(({ question, index }, place) => {
        const following = questions[place + 1]?.question
        const onward = following ? reference(following) : after
        const state: ChartState = {
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
              actions: { type: 'store' },
            },
            ...(isForVet(question)
              ? { SKIP: { target: onward, actions: { type: 'skip', params: { question: question.id } } } }
              : {}),
          },
        }
        return [question.id, state] as const
      }),
    )
    const first = questions[0]?.question.id ?? 'nothing-to-ask'
    return {
      id,
      initial: first,
      states: questions.length > 0 ? states : { [first]: { always: { target: after } } },
      ...(id === 'for-the-vet' ? {} : { always: { guard: { type: 'dangerFound' }, target: '#outcome' } }),
    }
  }

  const line = ['danger', 'concern', ...logic.concerns.map(concern => `about-${concern}`), 'common']
  const phases = Object.fromEntries(
    line.map((id, place) => [
      id,
      phase(id, id === 'danger' ? '#end-of-danger' : `#${line[place + 1] ?? 'end-of-questions'}`),
    ]),
  )
  const askable = logic.questions.filter(({ phase: name }) => name !== 'care')

  const root: WizardChart['root'] = {
    id: 'wizard',
    initial: 'start',
    on: {
      GO: { target: '#dispatch', actions: { type: 'want' } },
      BACK: { guard: { type: 'hasAnswers' }, target: '#dispatch', actions: { type: 'dropLast' } },
    },
    states: {
      start: { tags: ['start'], on: { START: { target: '#dispatch', actions: { type: 'want' } } } },
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
        always: [{ guard: { type: 'dangerOpen' }, target: '#danger' }, { target: '#concern' }],
      },
      /** A jump may have left earlier questions unasked: then the line is walked once more. */
      'end-of-questions': {
        id: 'end-of-questions',
        always: [{ guard: { type: 'notSettled' }, target: '#danger' }, { target: '#outcome' }],
      },
      'for-the-vet': phase('for-the-vet', '#outcome'),
      outcome: {
        id: 'outcome',
        tags: ['outcome'],
        entry: { type: 'letGo' },
        on: {
          /** The one tap that changes the first aid is answered on the outcome itself. */
          ANSWER: { actions: { type: 'store' } },
          DETAILS: { target: '#for-the-vet', actions: { type: 'tick' } },
        },
      },
    },
  }
  return { root, contextOf, holds, changed }
}
