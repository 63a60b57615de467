import { describe, expect, test } from 'vitest'
import type { AnimalEvent, WeighIn } from '../../../shared/case-file.ts'
import type { Moment } from '../../../shared/moment.ts'
import { sayNext, sayReport } from '../../../src/app/record/say.ts'
import type { LifeStage } from '../../../src/measure/flags.ts'
import { weightReport } from '../../../src/measure/weightReport.ts'
import { event, on, policy, weekly, weighed } from '../../measure/fixtures/record.ts'

interface Kept {
  readonly weighIns: readonly WeighIn[]
  readonly now: Moment
  readonly events?: readonly AnimalEvent[]
  readonly life?: LifeStage
}
const reportOf = ({ weighIns, now, events = [], life = 'grown' }: Kept) =>
  weightReport(weighIns, events, life, policy, now)
const say = (kept: Kept) => sayReport(reportOf(kept), policy, kept.life === 'young', kept.now, 'en-GB')

const told: Readonly<Record<string, Kept>> = {
  nothing: { weighIns: [], now: on(0) },
  one: { weighIns: weekly([58]), now: on(0) },
  twoAGramApart: { weighIns: weekly([58, 57], 1), now: on(7) },
  fall: { weighIns: weekly([60, 61, 60, 60.5, 52]), now: on(28) },
  slowFall: { weighIns: weighed({ 0: 60, 30: 52.8 }), now: on(30) },
  down: { weighIns: weekly([60, 59.4, 58.8, 58.2, 57.6, 57, 56.4, 59.2]), now: on(49) },
  drift: { weighIns: weekly([60, 59.9, 59.7, 59.6, 59.4, 59.3, 59.1, 59]), now: on(49) },
  up: { weighIns: weekly([50, 50.9, 51.7, 52.6, 53.4, 54.3]), now: on(35) },
  steady: { weighIns: weekly([60, 60.4, 60, 60.3, 60.1]), now: on(28) },
  old: { weighIns: weekly([60, 60.4, 60, 60.3, 60.1]), now: on(90) },
  tail: {
    weighIns: weighed({ 0: 60, 7: 60, 14: 60, 20: 45, 27: 45.2, 34: 45.1 }),
    events: [event('tail-lost', 17)],
    now: on(34),
  },
  young: { weighIns: weekly([8, 8, 8, 8, 8]), life: 'young', now: on(28) },
  coarse: { weighIns: weekly([10, 10, 10], 2), now: on(14) },
}

describe('the sentence above the chart', () => {
  test('calls two readings 1 g apart on a 1 g scale no change', () => {
    const { main, more, worry } = say(told.twoAGramApart as Kept)
    expect(main).toBe('No change that this scale can show: 57 g today, and 58 g on 1 January.')
    expect(more).toContain('With so few weights a small change cannot be told yet.')
    expect(worry).toBe(false)
  })

  test('tells a fall in grams, percent and days, and that only the newest weighing shows it', () => {
    const { main, more, worry } = say(told.fall as Kept)
    expect(main).toBe('It lost 8.5 g: 52 g today, against 60.5 g before. That is 14 % in 7 days.')
    expect(more).toContain('Only the newest weighing shows it. Until a second one says otherwise, it counts.')
    expect(more.join(' ')).toContain('Start a check')
    expect(worry).toBe(true)
  })

  test('two readings are enough for a large loss', () => {
    expect(say(told.slowFall as Kept).main).toContain('It lost 7.2 g')
  })

  test('tells a weight that goes down from weighing to weighing', () => {
    const { main, worry } = say(told.down as Kept)
    expect(main).toBe('Its weight goes down over many weighings: 59.2 g today.')
    expect(worry).toBe(true)
  })

  test('tells a drift that is still less than the noise as just that', () => {
    const { main, worry } = say(told.drift as Kept)
    expect(main).toBe('Its weight drifts down, so far by less than it swings from day to day: 59 g today.')
    expect(worry).toBe(false)
  })

  test('tells a weight that goes up, with its limits', () => {
    const { main, more, worry } = say(told.up as Kept)
    expect(main).toBe('Its weight goes up: 54.3 g today.')
    expect(more[0]).toMatch(
      /^Per week: \+1\.7 %, and likely between \+1\.\d %? and \+1\.\d %\.$|^Per week: \+1\.7 %/,
    )
    expect(worry).toBe(false)
  })

  test('calls steady what is steady, and says how closely', () => {
    expect(say(told.steady as Kept).main).toBe(
      'Steady: every weight of the last 28 days is within 3 % of their middle.',
    )
  })

  test('says that an old weight does not speak for today', () => {
    expect(say(told.old as Kept).more).toContain(
      'The newest weight is old. Weigh it again to know about today.',
    )
  })

  test('calls no loss what a lost tail explains, and says how much that is', () => {
    const { main, more, worry } = say(told.tail as Kept)
    expect(main).not.toContain('lost 15')
    expect(more).toContain('What happened in between explains 15 g of the change.')
    expect(worry).toBe(false)
  })

  test('tells a young one that gains nothing', () => {
    expect(say(told.young as Kept).main).toBe(
      'A growing animal, and no gain that this scale can show in 21 days: 8 g today.',
    )
  })

  test('says when a scale is too coarse', () => {
    expect(say(told.coarse as Kept).more).toContain(
      'This scale is too coarse for so light an animal. Use a finer one.',
    )
  })

  test.each(Object.entries(told))('keeps to short sentences and allowed words: %s', (_, kept) => {
    const report = reportOf(kept)
    const { main, more } = sayReport(report, policy, kept.life === 'young', kept.now, 'en-GB')
    for (const sentence of [main, ...more, ...sayNext(report, kept.now, 'en-GB')].flatMap(text =>
      text.split(/[.:?] /),
    )) {
      expect(sentence.split(' ').filter(word => /[a-z]/i.test(word)).length, sentence).toBeLessThanOrEqual(18)
      expect(sentence).not.toMatch(/\b(?:bright|dull|lively|lethargic|limp|ring)\b/)
    }
  })
})

describe('what is weighed next', () => {
  test('is the newest again, now, when it stands far off', () => {
    expect(sayNext(reportOf(told.fall as Kept), on(28), 'en-GB')[0]).toBe(
      'Weigh next today. The newest weight stands alone. A second one today tells whether it is true.',
    )
  })

  test('names the day, and the weight at which to start a check', () => {
    expect(sayNext(reportOf(told.steady as Kept), on(28), 'en-GB')).toEqual([
      'Weigh next on Thursday 5 February. That keeps the record good enough to see a slow loss.',
      'At 54.3 g or less, start a check.',
    ])
  })
})
