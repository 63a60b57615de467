import { spawnSync } from 'node:child_process'
import { expect, test } from 'vitest'
import { success } from '../../shared/result.ts'
import { realProtocol } from '../../src/cli/real-protocol.ts'
import { realWeights } from '../../src/cli/real-weights.ts'
import { trendOf } from '../../src/cli/trend-of.ts'

const NOW = ['--now', '2026-10-29T20:00:00Z', '--zone', 'Europe/London']
const compiled = realProtocol()
const weights = realWeights(compiled)

/** The command's own function, without a process of its own. */
const outcome = (input: string, words: readonly string[] = []) =>
  trendOf(['-', ...NOW, ...words], () => success(input), compiled, weights)

/** What is printed, as whoever reads it gets it. */
function printed(input: string, words?: readonly string[]) {
  const result = outcome(input, words)
  expect(result).toMatchObject({ ok: true })
  return JSON.parse(JSON.stringify(result.ok ? result.value : {}))
}

function trend(input: string, words: readonly string[] = NOW) {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'trend', '-', ...words], { input, encoding: 'utf8' })
}

const file = (...rows: string[]) => rows.join('\r\n')

// Invented animals and weights.
const fast = file(
  'date,weight (g)',
  '2026-10-01,60',
  '2026-10-08,61',
  '2026-10-15,60',
  '2026-10-22,60.5',
  '2026-10-29,52',
)
const slow = file('date,weight (g)', '2026-09-29,60', '2026-10-29,52.8')
const shelf = file(
  'animal,room,rack,tub,date,weight (g)',
  'Steady,west,B,1,2026-10-01,60',
  'Steady,west,B,1,2026-10-29,60',
  'Slides,east,A,2,2026-09-29,60',
  'Slides,east,A,2,2026-10-29,52.8',
  'Falls,east,A,1,2026-10-15,60',
  'falls ,east,A,1,2026-10-22,60',
  'FALLS,east,A,1,2026-10-29,52',
  'Contact,east,B,3,2026-10-29,60',
)

test('60, 61, 60, 60.5 and 52 g weekly give at least a day, and the newest is no outlier', () => {
  const { animals } = printed(fast)
  expect(animals).toHaveLength(1)
  expect(animals[0]).toMatchObject({ atLeast: { urgency: 'day' }, outliers: [], lossPercent: 14.049587 })
  expect(animals[0].flags.fastLoss).toEqual({ holds: true, certainty: 'likely' })
  expect(animals[0].next.because).toBe('confirmTheNewest')
})

test('60 g and 52.8 g thirty days later give at least a week', () => {
  expect(printed(slow).animals[0].atLeast.urgency).toBe('week')
})

test('a steady record gives no urgency, and never says that all is well', () => {
  const [animal] = printed(file('date,weight (g)', '2026-10-22,60', '2026-10-29,60.1')).animals
  expect(animal.atLeast).toBeUndefined()
  expect(animal.flags.tooFewReadings).toEqual({ holds: true, certainty: 'sure' })
})

test('a shelf comes by urgency, then by loss, names each place and the signal of the group', () => {
  const { animals, signals, due } = printed(shelf)
  expect(animals.map(({ animal }: { animal: string }) => animal)).toEqual([
    'Falls',
    'Slides',
    'Contact',
    'Steady',
  ])
  expect(animals[0].place).toEqual({ room: 'east', rack: 'A', tub: '1' })
  expect(animals[2]).toMatchObject({ atLeast: { urgency: 'week' }, bySignals: ['several-losing'] })
  expect(animals[3].atLeast).toBeUndefined()
  expect(signals).toMatchObject([
    {
      room: 'east',
      racks: ['A'],
      contacts: ['Slides', 'Falls', 'Contact'],
      urgencyBasis: 'project-judgement',
    },
  ])
  expect(signals[0].steps.length).toBeGreaterThan(2)
  expect(due).toHaveLength(4)
})

test('a death that is named gives the others of that room a signal', () => {
  const { animals, signals } = printed(shelf, ['--event', '2026-10-28:died:Steady'])
  expect(signals.map(({ id }: { id: string }) => id)).toContain('one-died')
  expect(animals.at(-1)).toMatchObject({ animal: 'Steady', ended: { kind: 'died' } })
})

test('an event explains a step up to its size, and only as much of the tail as came off', () => {
  const lost = file('date,weight (g)', '2026-10-15,60', '2026-10-22,60', '2026-10-29,46')
  const atLeast = (words: readonly string[]) => printed(lost, words).animals[0].atLeast?.urgency
  expect(atLeast([])).toBe('day')
  expect(atLeast(['--event', '2026-10-25:tail-lost'])).toBeUndefined()
  expect(atLeast(['--event', '2026-10-25:tail-lost=0.1'])).toBe('day')
})

test('eggs explain a step only when they were seen', () => {
  const laid = file('date,weight (g)', '2026-10-22,55', '2026-10-29,47.5')
  const atLeast = (event: string) => printed(laid, ['--event', event]).animals[0].atLeast?.urgency
  expect(atLeast('2026-10-26:eggs-laid')).toBe('day')
  expect(atLeast('2026-10-26:eggs-laid=seen')).toBeUndefined()
})

test('the hatch date of the command or of the file tells the young, and the band of growth', () => {
  const young = (header: string, end: string) => file(header, `2026-10-01,12${end}`, `2026-10-29,12${end}`)
  const fromCommand = printed(young('date,weight (g)', ''), ['--born', '2026-08-01']).animals[0]
  expect(fromCommand).toMatchObject({ ageDays: 89, lifeStage: 'young', growth: { place: 'within' } })
  expect(fromCommand.flags.youngNotGaining).toEqual({ holds: true, certainty: 'likely' })
  const fromFile = printed(young('date,weight (g),hatched', ',2026-08-01')).animals[0]
  expect(fromFile.ageDays).toBe(89)
})

test('the step of the scale widens what counts as noise', () => {
  const noise = (step: string) => printed(slow, ['--scale-step', step]).animals[0].comparison.noiseFloorGrams
  expect(noise('5')).toBeGreaterThan(noise('0.1'))
})

test('a weight of today without a time counts even in the morning', () => {
  expect(printed(fast, ['--now', '2026-10-29T06:00:00Z']).animals[0]).toMatchObject({
    readings: 5,
    notYet: 0,
  })
})

test('the order of the rows does not matter', () => {
  const [header, ...rows] = shelf.split('\r\n')
  const turned = file(header ?? '', ...rows.reverse())
  const order = ({ animals }: { animals: { animal: string; lossPercent: number }[] }) =>
    animals.map(({ animal, lossPercent }) => [animal.toLowerCase(), lossPercent])
  expect(order(printed(turned))).toEqual(order(printed(shelf)))
})

test.each([
  [
    'a weight of zero',
    file('date,weight (g)', '2026-10-01,0'),
    [],
    /^row 2, weight \(g\): given: 0 g; accepted:/,
  ],
  ['a weight of 6000 g', file('date,weight (g)', '2026-10-01,6000'), [], /^row 2, .*up to 500 g/],
  [
    'a day in the future',
    file('date,weight (g)', '2026-11-01,60'),
    [],
    /^row 2: given: 2026-11-01; accepted: a day up to 2026-10-29/,
  ],
  [
    'a day before hatching',
    file('date,weight (g)', '2026-01-01,60'),
    ['--born', '2026-02-01'],
    /^row 2: .*hatching/,
  ],
  ['an empty file', '', [], /^file: /],
  ['no column of weights', file('date,colour', '2026-10-01,red'), [], /^row 1: /],
  [
    'a date of two meanings',
    file('date,weight (g)', '03/04/2026,60'),
    [],
    /--dates day-first \(2026-04-03\)/,
  ],
  ['weights without a unit', file('date,weight', '2026-10-01,60'), [], /--unit g, kg, oz or lb/],
  [
    'an unknown kind of event',
    fast,
    ['--event', '2026-10-01:party'],
    /^--event: given: 2026-10-01:party; accepted: DATE:KIND/,
  ],
  ['an event in the future', fast, ['--event', '2026-12-01:eggs-laid'], /^--event: .*not in the future/],
  [
    'an event of no animal of the file',
    shelf,
    ['--event', '2026-10-01:eggs-laid:Nobody'],
    /^--event: given: Nobody/,
  ],
  ['an event that names none of several', shelf, ['--event', '2026-10-01:eggs-laid'], /DATE:KIND:NAME/],
  ['a hatch date that is none', fast, ['--born', 'June'], /^--born: given: June/],
  ['a scale step of zero', fast, ['--scale-step', '0'], /^--scale-step: given: 0/],
  ['an unknown word', fast, ['--colour', 'red'], /^command: /],
])('%s is one fault that says what is accepted', (_, input, words, line) => {
  const result = outcome(input, words)
  const faults = result.ok ? [] : result.faults
  expect(faults).toHaveLength(1)
  expect(
    faults.map(({ field, value, accepted }) => `${field}: given: ${value}; accepted: ${accepted}`)[0],
  ).toMatch(line)
})

test('the command prints JSON with exit code 0, the same bytes every time', () => {
  const run = trend(shelf)
  expect(run.status).toBe(0)
  expect(JSON.parse(run.stdout)).toEqual(printed(shelf))
  expect(trend(shelf).stdout).toBe(run.stdout)
})

test('bad input ends with code 2, nothing on standard output and one line for each fault', () => {
  const { status, stdout, stderr } = trend(file('date,weight (g)', '2026-10-01,0', '2026-10-02,-3'))
  expect([status, stdout]).toEqual([2, ''])
  expect(stderr.trim().split('\n')).toEqual([
    expect.stringMatching(/^row 2, weight \(g\): given: 0 g; accepted: /),
    expect.stringMatching(/^row 3, weight \(g\): given: -3 g; accepted: /),
  ])
})

test('a file that is not there is named', () => {
  const run = spawnSync(process.execPath, ['src/cli/run.mjs', 'trend', 'no-such-file.csv'], {
    encoding: 'utf8',
  })
  expect(run.status).toBe(2)
  expect(run.stderr).toMatch(/^file: given: no-such-file.csv; accepted: a file that can be read/)
})

test('dates of two meanings and units are taken as the command says', () => {
  const open = file('date,weight', '03/04/2026,2', '05/04/2026,2')
  const { animals } = printed(open, ['--dates', 'day-first', '--unit', 'oz'])
  expect(animals[0].comparison.newest).toMatchObject({ at: '2026-04-05T11:00:00.000Z', massGrams: 56.699 })
})
