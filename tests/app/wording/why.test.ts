import { describe, expect, test } from 'vitest'
import { SOURCE_CLASSES } from '../../../shared/content.ts'
import { labels } from '../../../src/app/wording/labels.ts'
import { becauseLines, reasons, sourcesOf } from '../../../src/app/wording/why.ts'
import { answerWords } from '../../../src/handover/answer-words.ts'
import { book, worked } from './worked.ts'

describe.each(worked)('$name', told => {
  test('says why, in the owner’s own answers', () => {
    const { open } = reasons(told)
    expect(open.length).toBeGreaterThan(0)
    for (const reason of open) {
      expect(book.rule(reason.rule)?.reason ?? book.sign(reason.rule)).not.toBe(reason.rule)
      // A concern's starting point rests on no answer of its own.
      if (reason.because.length > 0) expect(becauseLines(told, reason).join('')).not.toBe('')
    }
  })

  test('shows every source of every reason once, keepers’ pages apart and last', () => {
    const { open, folded } = reasons(told)
    for (const reason of [...open, ...folded]) {
      const cited = new Set(reason.evidence.flatMap(row => book.evidence(row)?.sources ?? []))
      const groups = sourcesOf(book, reason)
      expect(groups.flatMap(({ sources }) => sources)).toHaveLength(cited.size)
      const kinds = groups.map(({ kind }) => kind)
      if (kinds.includes(labels.sourceKeeper)) expect(kinds.at(-1)).toBe(labels.sourceKeeper)
    }
  })
})

test('every class of source has a name of its own', () => {
  const reason = worked.flatMap(told => reasons(told).open)[0]
  if (!reason) throw new Error('No reason.')
  const all = sourcesOf(
    {
      ...book,
      evidence: () => ({ sign: '', sources: [...SOURCE_CLASSES] }),
      source: id => ({ title: id, class: id, read: 'full' }),
    },
    { ...reason, evidence: ['one'] },
  )
  expect(all.map(({ sources }) => sources.length)).toEqual(SOURCE_CLASSES.map(() => 1))
  expect(new Set(all.map(({ kind }) => kind)).size).toBe(SOURCE_CLASSES.length)
})

describe('an answer in words', () => {
  const given = '2026-11-24T20:00:00Z'
  const question = book.logic.questions.find(({ kind }) => kind === 'since')
  const preset = book.question(question?.id ?? '')?.presets?.[0]
  const began = new Date(Date.parse(given) - (preset?.hoursAgo ?? 0) * 3_600_000).toISOString()
  const answer = {
    kind: 'since',
    began,
    uncertaintyHours: preset?.uncertaintyHours ?? 0,
    given,
  } as const
  const said = (isToday: boolean) =>
    question &&
    answerWords(book, question, { answer }, { day: one => one.slice(0, 10), isToday: () => isToday })

  test('is the line that was chosen on the day it was chosen, and a date for another reader', () => {
    expect(said(true)).toBe(preset?.text)
    expect(said(false)).toContain(began.slice(0, 10))
  })
})
