import { expect, type Page } from '@playwright/test'
import { EMPTY_CASE_FILE } from '../../shared/answers.ts'
import type { Answer, CaseFile } from '../../shared/case-file.ts'
import type { Logic, Question } from '../../shared/compiled.ts'
import type { Moment } from '../../shared/moment.ts'
import type { Urgency } from '../../shared/urgency.ts'
import { labels } from '../../src/app/wording/labels.ts'
import { assess } from '../../src/triage/assess.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'
import { readCaseFile } from '../../src/triage/read-case-file.ts'
import { caseFileOf, type LogEntry } from '../../src/wizard/log.ts'
import { realCompiled } from '../laws/real-protocol.ts'
import { patterns } from '../published/cases.ts'

/**
 * Cases that are put into the browser's store before the app opens, so that it takes them up as a case left
 * unfinished: the app's own way to any outcome and, by the list of answers, to any question.
 */
export interface SeededCase {
  readonly name: string
  readonly log: readonly LogEntry[]
  readonly now: Moment
  readonly urgency: Urgency | undefined
}

export const compiled = realCompiled()
export const protocol: Protocol = prepare(compiled.logic)

/** The log that gives a case file's answers, in the order of the protocol. */
function logOfCase(logic: Logic, caseFile: CaseFile): LogEntry[] {
  return logic.questions.flatMap((question): LogEntry[] => {
    const answer = caseFile.answers[question.id]
    const weighIns =
      question.kind === 'weights' && caseFile.weighIns.length > 0 ? caseFile.weighIns : undefined
    if (!answer && !weighIns) return []
    const given: Answer = answer ?? { kind: 'cannot-measure', given: weighIns?.at(-1)?.at ?? '' }
    return [{ question: question.id, answer: given, ...(weighIns ? { weighIns } : {}) }]
  })
}

/** Every worked case of tests/cases/patterns that its answers alone settle. */
export function settledCases(): SeededCase[] {
  return patterns.flatMap(({ id, caseFile, now }): SeededCase[] => {
    const read = readCaseFile(compiled.logic, caseFile, now)
    if (!read.ok) return []
    const log = logOfCase(compiled.logic, read.value)
    const { settled, urgency } = assess(protocol, caseFileOf(EMPTY_CASE_FILE, log), now)
    return settled ? [{ name: id, log, now, urgency }] : []
  })
}

/** Writes a case into the store of the page's browser and takes it up, as after a reload. */
export async function takeUp(page: Page, { log, now }: SeededCase): Promise<void> {
  await page.clock.setFixedTime(now.instant)
  // A file of the app that runs nothing: the store can be written before any script of the app reads it.
  await page.goto('/service-worker.js')
  const { species, version, hash } = compiled.logic
  const common = { caseId: 'seeded', at: now.instant, protocol: { species, version, hash } }
  const events = [
    { ...common, seq: 0, kind: 'began' },
    ...log.map((entry, at) => ({ ...common, seq: at + 1, kind: 'answered', entry })),
  ]
  await page.evaluate(
    all =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('duskcheck')
        open.onupgradeneeded = () => open.result.createObjectStore('events', { keyPath: ['caseId', 'seq'] })
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const transaction = open.result.transaction('events', 'readwrite')
          const store = transaction.objectStore('events')
          store.clear()
          for (const event of all) store.add(event)
          transaction.onerror = () => reject(transaction.error)
          transaction.oncomplete = () => {
            open.result.close()
            resolve()
          }
        }
      }),
    events,
  )
  await page.goto('/')
  await page.getByRole('button', { name: new RegExp(`^${labels.resumeTitle}`) }).click()
}

/** A case in which every question but those of the outcome itself has the mildest answer, so that each can be changed. */
export function fullCase(now: Moment): SeededCase {
  const log = compiled.logic.questions
    .filter(({ phase }) => phase !== 'care')
    .map((question): LogEntry => ({ question: question.id, answer: mildest(question, now) }))
  const { urgency } = assess(protocol, caseFileOf(EMPTY_CASE_FILE, log), now)
  return { name: 'every question answered', log, now, urgency }
}

function mildest(question: Question, now: Moment): Answer {
  const given = now.instant
  const [choice] = question.options
  switch (question.kind) {
    case 'several':
      return {
        kind: 'several',
        chosen: question.phase === 'concern' ? question.options : [],
        rest: 'no',
        given,
      }
    case 'choice':
      return { kind: 'choice', choice: choice ?? '', given }
    case 'amount':
      return { kind: 'amount', amount: question.range?.from ?? 1, given }
    case 'since':
      return { kind: 'since', began: given, uncertaintyHours: 12, given }
    case 'weights':
      return { kind: 'cannot-measure', given }
  }
}

/** Opens one question of a case that was taken up, by the list of answers. */
export async function openQuestion(page: Page, id: string): Promise<void> {
  const ask = askOf(id)
  await page.evaluate(() => {
    location.hash = '#answers'
  })
  await expect(heading(page)).toHaveText(labels.reviewTitle)
  const order = compiled.logic.questions.filter(({ phase }) => phase !== 'care').map(one => one.id)
  await page.locator('.review-row').nth(order.indexOf(id)).getByRole('button').click()
  await expect(heading(page)).toHaveText(ask)
}

/** What a question asks, in the words of the page. */
export function askOf(id: string): string {
  const parts = [compiled.dangerWords, compiled.commonWords, ...Object.values(compiled.concernWords)]
  return parts.map(({ questions }) => questions[id]?.ask).find(ask => ask !== undefined) ?? ''
}

export const heading = (page: Page) => page.getByRole('heading', { level: 1 })
