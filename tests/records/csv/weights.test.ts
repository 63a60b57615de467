import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { AnimalRecord, KeeperRecord } from '../../../shared/record.ts'
import { planWeights } from '../../../src/records/csv/plan-weights.ts'
import { parseWeights, type ReadOptions, readWeights } from '../../../src/records/csv/read-weights.ts'
import { writeWeights } from '../../../src/records/csv/write-weights.ts'
import type { Writing } from '../../../src/records/keeper-store.ts'
import { replay } from '../../../src/records/replay.ts'
import { dailyWeighIns } from '../entries.ts'
import { fileOf, hugeFile, PICTURE } from '../files.ts'

const BERLIN: ReadOptions = { zone: 'Europe/Berlin' }
const NOW = '2026-11-25T02:10:00Z'

function writing(): Writing {
  let names = 0
  return {
    written: NOW,
    newId: () => {
      names += 1
      return `new-${names}`
    },
  }
}

const rowsOf = (text: string, options: Partial<ReadOptions> = {}) => {
  const read = parseWeights(text, { ...BERLIN, ...options })
  if (read.kind !== 'read') throw new Error(JSON.stringify(read))
  return read.rows
}
const short = (text: string, options: Partial<ReadOptions> = {}) =>
  rowsOf(text, options).map(({ animal, weighIn }) => [animal, weighIn.at, weighIn.massGrams])
const sentences = (text: string, options: Partial<ReadOptions> = {}) => {
  const read = parseWeights(text, { ...BERLIN, ...options })
  return read.kind === 'refused'
    ? read.faults.map(({ field, value, accepted }) => `${field}: ${value}: ${accepted}`)
    : read.kind
}

describe('a file of weights', () => {
  test('is read whatever the order of its columns', () => {
    const wanted = [['Dune', '2025-04-03T16:30:00.000Z', 52.5]]
    expect(short('Date,Time,Weight (g),Gecko\n2025-04-03,18:30,52.5,Dune')).toEqual(wanted)
    expect(short('gecko,Weight_g,colour,time,date\nDune,52.5,tangerine,6:30 pm,3.4.2025')).toEqual(wanted)
    expect(short('name;grams;day\nDune;52,5;3 April 2025, 18:30')).toEqual(wanted)
    expect(short('animal\tmass [g]\tweighed at\nDune\t52.5\t2025-04-03T18:30:00+02:00')).toEqual(wanted)
  })

  test('without a time of day means noon of that day, where the keeper lives', () => {
    expect(short('date,weight g\n2025-01-03,52')).toEqual([[undefined, '2025-01-03T11:00:00.000Z', 52]])
    expect(short('date,weight g\n2025-01-03,52', { zone: 'America/Los_Angeles' })).toEqual([
      [undefined, '2025-01-03T20:00:00.000Z', 52],
    ])
  })

  test('says its unit in the header, in a column, or behind each number', () => {
    const masses = (text: string) => rowsOf(text).map(({ weighIn }) => weighIn.massGrams)
    expect(masses('date,weight (oz)\n2025-04-03,2\n2025-04-04,2 oz')).toEqual([56.699, 56.699])
    expect(masses('date,weight,unit\n2025-04-03,2,oz\n2025-04-04,60,g\n2025-04-05,0.06,kg')).toEqual([
      56.699, 60, 60,
    ])
    expect(masses('date,weight\n2025-04-03,60 g\n2025-04-04,2oz\n2025-04-05,0.125 lb')).toEqual([
      60, 56.699, 56.699,
    ])
    expect(masses('date,weight in grams\n2025-04-03,60')).toEqual([60])
  })

  test('that states no unit asks for it, once', () => {
    const text = 'date,weight\n2025-04-03,60\n2025-04-04,61'
    expect(parseWeights(text, BERLIN)).toEqual({
      kind: 'asks',
      questions: [{ kind: 'unit', row: 2, text: '60' }],
    })
    expect(short(text, { unit: 'g' }).map(([, , grams]) => grams)).toEqual([60, 61])
  })

  test('asks for the order of its dates where no row settles it, and takes the answer', () => {
    const text = 'date,weight g\n03/04/2025,60\n05/04/2025,61'
    const read = parseWeights(text, BERLIN)
    expect(read.kind === 'asks' && read.questions.map(({ kind }) => kind)).toEqual(['date-order'])
    expect(short(text, { dateOrder: 'day-first' }).map(([, at]) => at)).toEqual([
      '2025-04-03T10:00:00.000Z',
      '2025-04-05T10:00:00.000Z',
    ])
    expect(short(`${text}\n25/04/2025,62`)).toHaveLength(3)
  })

  test('with decimal commas is read as one', () => {
    expect(short('date;weight g\n2025-04-03;52,5\n2025-04-04;2,125').map(([, , grams]) => grams)).toEqual([
      52.5, 2.125,
    ])
    expect(sentences('date;weight g\n2025-04-03;2,125')).toEqual([
      'row 2, weight g: 2,125: a number that means one thing, such as 1.234 or 1234',
    ])
  })

  test('has its scale step, meal and note taken along', () => {
    const text = 'date,weight (g),scale step (g),meal,notes\n2025-04-03,52.5,0.1,Before,"shed, whole"'
    expect(rowsOf(text)[0]?.weighIn).toEqual({
      at: '2025-04-03T10:00:00.000Z',
      massGrams: 52.5,
      scaleStepGrams: 0.1,
      meal: 'before',
      note: 'shed, whole',
    })
  })

  test('rows without a weight are passed over and counted', () => {
    const read = parseWeights('date,weight g\n2025-04-03,52\n2025-04-10,\n,\n2025-04-17,53', BERLIN)
    expect(read).toMatchObject({ kind: 'read', withoutWeight: [3] })
    expect(read.kind === 'read' && read.rows.map(({ row }) => row)).toEqual([2, 5])
  })
})

describe('refused with row, field, value and what is accepted', () => {
  test.each([
    ['date,weight g\n2025-04-03,0', 'row 2, weight g: 0 g: a weight above 0 g and up to 500 g'],
    ['date,weight g\n2025-04-03,-5', 'row 2, weight g: -5 g: a weight above 0 g and up to 500 g'],
    ['date,weight g\n2025-04-03,6000', 'row 2, weight g: 6000 g: a weight above 0 g and up to 500 g'],
    [
      'date,weight g\n2025-04-03,about 52',
      'row 2, weight g: about 52: a number, and behind it nothing or g, kg, oz, lb',
    ],
    ['date,weight g\n2025-04-03,52 oz', 'row 2, weight g: 52 oz: a weight in g, as the table says'],
    ['date,weight,unit\n2025-04-03,52,stone', 'row 2, unit: stone: g, kg, oz, lb'],
    ['date,weight g\nspring,52', 'row 2, date: spring: a date such as 2025-04-03, 3.4.2025 or 3 April 2025'],
    ['date,time,weight g\n2025-04-03,evening,52', 'row 2, time: evening: a time such as 18:30 or 6:30 pm'],
    ['date,weight g\n2025-04-03 evening,52', 'row 2, date: evening: a time such as 18:30 or 6:30 pm'],
    ['date,weight g,meal\n2025-04-03,52,lunch', 'row 2, meal: lunch: before, after'],
    ['date,weight g,scale step\n2025-04-03,52,0', 'row 2, scale step: 0: a step above 0 g and up to 50 g'],
    ['date,weight g,gecko\n2025-04-03,52,', 'row 2, gecko: empty: the name of the animal, up to 60 letters'],
    ['date,colour\n2025-04-03,pale', 'row 1: date, colour: a column with a name such as weight, mass'],
    ['a,b\n1,2', 'row 1: a, b: columns with names such as date, day, weighed at, and weight, mass'],
    [
      'date,weight,mass\n2025-04-03,52,53',
      'row 1: weight, mass: one column of this kind; leave out or rename one of the two',
    ],
    ['date,weight g\n2025-04-03,', 'file: no weights: at least one row with a weight'],
  ])('%j', (text, sentence) => {
    expect(sentences(text)).toEqual([sentence])
  })

  test('every fault at once, in order of rows', () => {
    expect(sentences('date,weight g\n2025-04-03,0\nspring,52\n2025-04-05,x')).toHaveLength(3)
    expect(sentences('date,weight g\nspring,52\n2025-04-03,0')[0]).toMatch(/^row 2/)
  })

  test('a fault goes before a question: what is refused anyway is not asked about', () => {
    expect(sentences('date,weight\n03/04/2025,x')).toHaveLength(1)
  })

  test('an empty file, a picture, and a file of 50 MB', async () => {
    const fault = async (file: Parameters<typeof readWeights>[0]) => {
      const read = await readWeights(file, BERLIN)
      return read.kind === 'refused' ? read.faults[0]?.value : read.kind
    }
    expect(await fault(fileOf(''))).toBe('notebook.csv, empty')
    expect(await fault(fileOf(PICTURE))).toBe('notebook.csv, no text')
    expect(await fault(hugeFile(50_000_000))).toBe('huge.csv, 50 MB')
  })
})

describe('taking weights into the record', () => {
  const record = replay(dailyWeighIns(3))
  const [dune] = record.animals
  const plan = (text: string, more: Partial<Parameters<typeof planWeights>[2]> = {}, into = record) =>
    planWeights(into, rowsOf(text), { writing: writing(), now: NOW, ...more })

  test('finds an animal by its name, and makes those not on record', () => {
    const planned = plan('gecko,date,weight g\n dune ,2025-04-03,52\nReed,2025-04-03,48\nreed,2025-04-10,49')
    expect(planned.ok && planned.value.animals).toEqual([
      {
        animalId: 'dune',
        name: 'Dune',
        isNew: false,
        isRemoved: false,
        new: 1,
        changed: 0,
        removed: 0,
        known: 0,
      },
      {
        animalId: expect.any(String),
        name: 'Reed',
        isNew: true,
        isRemoved: false,
        new: 2,
        changed: 0,
        removed: 0,
        known: 0,
      },
    ])
    const after = replay([...dailyWeighIns(3), ...(planned.ok ? planned.value.entries : [])])
    expect(after.animals.map(({ animal, weighIns }) => [animal.name, weighIns.length])).toEqual([
      ['Dune', 4],
      ['Reed', 2],
    ])
  })

  test('takes the same animal, minute and grams once: from the record, and within the file', () => {
    const first = dune?.weighIns[0]
    const text = `gecko,date,weight g\nDune,${first?.at},${first?.massGrams}\nDune,2025-04-03,52\nDune,2025-04-03,52.0`
    const planned = plan(text)
    expect(planned.ok && planned.value.animals).toMatchObject([{ new: 1, known: 2 }])
    expect(planned.ok && planned.value.entries).toHaveLength(1)
  })

  test('names rows that lie within two minutes of another weight', () => {
    const planned = plan(
      'gecko,date,weight g\nDune,2025-04-03 18:30,52\nDune,2025-04-03 18:31,53\nDune,2025-04-03 18:40,53',
    )
    expect(planned.ok && planned.value.closeInTime).toEqual([3])
  })

  test('a file that names no animal needs one', () => {
    const text = 'date,weight g\n2025-04-03,52'
    expect(plan(text)).toEqual({
      ok: false,
      faults: [{ field: 'file', value: 'names no animal', accepted: 'the animal these weights are of' }],
    })
    const known = plan(text, { fallback: { kind: 'known', animalId: 'dune' } })
    expect(known.ok && known.value.animals).toMatchObject([{ animalId: 'dune', new: 1 }])
    const fresh = plan(text, { fallback: { kind: 'new', animal: { name: 'Reed', sex: 'female' } } })
    expect(fresh.ok && fresh.value.entries.map(({ kind }) => kind)).toEqual(['animal', 'weigh-in'])
  })

  test('a name that two animals share is refused with its row', () => {
    const twins = replay([
      ...dailyWeighIns(1),
      { entryId: 'a2', written: NOW, animalId: 'other', kind: 'animal', animal: { name: 'DUNE' } },
    ])
    expect(plan('gecko,date,weight g\nDune,2025-04-03,52', {}, twins)).toMatchObject({
      ok: false,
      faults: [{ field: 'row 2', value: 'Dune' }],
    })
  })

  test('the future and the time before hatching are refused with their rows, and nothing is taken', () => {
    const hatched = replay([
      {
        entryId: 'a1',
        written: NOW,
        animalId: 'dune',
        kind: 'animal',
        animal: { name: 'Dune', hatchedOn: '2025-06-01' },
      },
    ])
    const planned = plan(
      'gecko,date,weight g\nDune,2025-04-03,52\nDune,2027-04-03,52\nDune,2025-07-03,52',
      {},
      hatched,
    )
    expect(planned.ok ? [] : planned.faults.map(({ field, accepted }) => `${field}: ${accepted}`)).toEqual([
      'row 2, at: a time after it hatched on 2025-06-01',
      'row 3, at: a time that is not in the future',
    ])
  })
})

describe('weights written', () => {
  const text = fc
    .oneof(
      fc.string({ minLength: 1, maxLength: 20 }),
      fc.string({ unit: fc.constantFrom(...`=+-@'",; \r\nä`), minLength: 1, maxLength: 8 }),
    )
    .filter(drawn => ![...drawn].some(letter => letter < ' ' && !'\t\n\v\f\r'.includes(letter)))
  const name = text.map(drawn => drawn.trim()).filter(drawn => drawn !== '')
  const instant = fc
    .integer({ min: Date.UTC(2000, 0, 1), max: Date.parse(NOW) })
    .map(ms => new Date(ms).toISOString())
  const weighIn = fc.record(
    {
      at: instant,
      massGrams: fc.double({ min: 0.001, max: 500, noNaN: true }),
      scaleStepGrams: fc.double({ min: 0.001, max: 50, noNaN: true }),
      meal: fc.constantFrom('before' as const, 'after' as const),
      note: text,
    },
    { requiredKeys: ['at', 'massGrams'], noNullPrototype: true },
  )
  const animal = fc.record({ name, weighIns: fc.array(weighIn, { minLength: 1, maxLength: 4 }) })
  const records = fc.array(animal, { minLength: 1, maxLength: 3 }).map(
    (drawn): KeeperRecord => ({
      animals: drawn.map(
        ({ name, weighIns }, animalAt): AnimalRecord => ({
          animalId: `animal-${animalAt}`,
          animal: { name },
          weighIns: weighIns.map((one, at) => ({ ...one, itemId: `item-${animalAt}-${at}` })),
          events: [],
          readings: [],
          assessments: [],
        }),
      ),
    }),
  )

  test('are read back as they were, and are all known', () => {
    fc.assert(
      fc.property(records, record => {
        const rows = rowsOf(writeWeights(record))
        const wanted = record.animals.flatMap(({ animalId, weighIns }) =>
          weighIns.map(({ itemId: _itemId, ...rest }) => [animalId, rest]),
        )
        expect(rows.map(row => [row.animalId, row.weighIn])).toEqual(wanted)
        const planned = planWeights(record, rows, { writing: writing(), now: NOW })
        expect(planned.ok && planned.value.entries).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  test('may be of some animals only', () => {
    const record = replay([
      ...dailyWeighIns(2),
      { entryId: 'a2', written: NOW, animalId: 'reed', kind: 'animal', animal: { name: 'Reed' } },
    ])
    expect(rowsOf(writeWeights(record, ['dune']))).toHaveLength(2)
    expect(writeWeights(record, ['reed'])).toBe(
      'animal,weighed at,weight (g),scale step (g),meal,note,animal id\r\n',
    )
  })
})

test('the paper notebook of a keeper, forty weights, is in', () => {
  const line = (week: number) => {
    const day = new Date(Date.UTC(2025, 0, 5 + 7 * week))
    return `${day.getUTCDate()}/${day.getUTCMonth() + 1}/${day.getUTCFullYear()},${55 + (week % 5)},Dune`
  }
  const lines = Array.from({ length: 40 }, (_, week) => line(week))
  const rows = rowsOf(['Date,Weight (g),Gecko', ...lines].join('\n'))
  expect(rows).toHaveLength(40)
  expect(rows.at(-1)?.weighIn).toMatchObject({ at: '2025-10-05T10:00:00.000Z', massGrams: 59 })
})
