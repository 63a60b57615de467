import { cleanup, screen, waitFor } from '@testing-library/preact'
import { afterEach, describe, expect, test } from 'vitest'
import {
  ago,
  animalWith,
  arriveAt,
  choose,
  entry,
  heading,
  openRecord,
  press,
  type,
  within,
} from './open-record.tsx'

afterEach(cleanup)

/** What reads tables is fetched when it is needed, which takes its time on a busy machine. */
const FETCHED = { timeout: 10_000 }

const STEADY = [60, 60.4, 60, 60.3, 60.1]
const FALL = [60, 61, 60, 60.5, 52]

describe('your animals', () => {
  test('says what to do when there is none', async () => {
    await openRecord('#animals')
    expect(screen.getByText(/None yet\. Give one a name and weigh it/)).toBeTruthy()
  })

  test('takes one more by a name and one tap', async () => {
    const { store } = await openRecord('#animals')
    type('Its name', 'Ember')
    press('Add')
    await arriveAt('Ember')
    expect(store.record().animals.map(({ animal }) => animal.name)).toEqual(['Ember'])
  })

  test('refuses no name, in a sentence', async () => {
    await openRecord('#animals')
    press('Add')
    expect(await screen.findByText('Name is empty. Accepted: 1 to 60 letters.')).toBeTruthy()
  })

  test('reminds of a backup once many entries are in none', async () => {
    await openRecord(
      '#animals',
      animalWith(
        'Ember',
        Array.from({ length: 30 }, () => 60),
      ),
    )
    expect(screen.getByText('31 entries are in no backup file yet.')).toBeTruthy()
  })
})

describe('an animal', () => {
  test('shows its sentence, its chart, and the same data as a table', async () => {
    await openRecord('#animal/Ember', animalWith('Ember', STEADY))
    expect(screen.getByText(/^Steady: every weight of the last 28 days/)).toBeTruthy()
    const details = screen.getByText('The same as a table').closest('details')
    if (details) details.open = true
    details?.dispatchEvent(new Event('toggle'))
    const rows = await screen.findAllByRole('row')
    expect(rows).toHaveLength(6)
    expect(rows[1]?.textContent).toBe('25 Nov 202660.1 g\u22120.3 %')
  })

  test('lets one walk along the weights by a slider that speaks', async () => {
    await openRecord('#animal/Ember', animalWith('Ember', STEADY))
    const slider = screen.getByRole('slider', { name: 'Walk along the weights' })
    expect(slider.getAttribute('aria-valuetext')).toBe('25 Nov 2026: 60.1 g, \u22120.3 % against the best')
    slider.focus()
    ;(slider as HTMLInputElement).value = '0'
    slider.dispatchEvent(new Event('input', { bubbles: true }))
    await waitFor(() => expect(slider.getAttribute('aria-valuetext')).toContain('28 Oct 2026: 60 g'))
  })

  test('asks for a second weighing at once when the newest is far off', async () => {
    await openRecord('#animal/Ember', animalWith('Ember', FALL))
    expect(screen.getByText('Weigh it a second time now')).toBeTruthy()
    expect(screen.getByText('A vet within 24 hours, at least, by its weights alone.')).toBeTruthy()
    press('Weigh again')
    await arriveAt('Weigh Ember')
    type('Weight', '60')
    press('Save')
    await arriveAt('Ember')
    expect(screen.queryByText('Weigh it a second time now')).toBeNull()
  })

  test('says in its legend what an odd one is', async () => {
    await openRecord('#animal/Ember', animalWith('Ember', [60, 60.4, 60, 48, 60.3, 60.1, 60.2, 60]))
    expect(screen.getByText('An odd one: shown, not counted')).toBeTruthy()
  })

  test('begins a check with what the record knows of it', async () => {
    const { checked } = await openRecord('#animal/Ember', animalWith('Ember', STEADY))
    press(/^Start a check for Ember/)
    expect(checked.map(({ weighIns }) => weighIns.length)).toEqual([5])
  })

  test('that is not on record says so and leads back', async () => {
    await openRecord('#animal/nobody')
    expect(heading()).toBe('This animal is not on record')
    press('Your animals')
    await arriveAt('Your animals')
  })
})

describe('a weighing', () => {
  test('takes two taps and a number, and can be taken back', async () => {
    const { store } = await openRecord('#animal/Ember', animalWith('Ember', STEADY, 0.1, 7))
    press('Weigh')
    await arriveAt('Weigh Ember')
    type('Weight', '59,8')
    press('Save')
    await arriveAt('Ember')
    const weights = () => store.record().animals[0]?.weighIns.map(({ massGrams }) => massGrams)
    expect(weights()).toEqual([...STEADY, 59.8])
    press('Undo')
    await waitFor(() => expect(weights()).toEqual(STEADY))
  })

  test('puts the cursor into the field', async () => {
    await openRecord('#animal/Ember/weigh', animalWith('Ember', STEADY))
    await waitFor(() => expect(document.activeElement?.id).toBe('weight'))
  })

  test('remembers the step of the scale', async () => {
    await openRecord('#animal/Ember/weigh', animalWith('Ember', [60], 0.5))
    expect(screen.getByLabelText<HTMLSelectElement>('Your scale shows steps of').value).toBe('0.5')
  })

  test.each([
    ['', 'Weight is empty.'],
    ['0', 'Weight cannot be “0”.'],
    ['6000', 'Weight cannot be “6000”.'],
    ['-5', 'Weight cannot be “-5”.'],
  ])('of “%s” is refused and nothing is saved', async (weight, sentence) => {
    const { store } = await openRecord('#animal/Ember/weigh', animalWith('Ember', []))
    type('Weight', weight)
    press('Save')
    expect(
      await screen.findByText(new RegExp(`^${sentence} Accepted: a weight above 0 g and up to 500 g`)),
    ).toBeTruthy()
    expect(store.record().animals[0]?.weighIns).toEqual([])
  })

  test('on a day to come is refused', async () => {
    await openRecord('#animal/Ember/weigh', animalWith('Ember', []))
    type('Weight', '58')
    type('Day', '2026-11-26')
    press('Save')
    expect(await screen.findByText('Day cannot be “2026-11-26”. Accepted: a day up to today.')).toBeTruthy()
  })

  test('before it hatched is refused', async () => {
    await openRecord('#animal/Ember/weigh', [
      entry({ kind: 'animal', animalId: 'Ember', animal: { name: 'Ember', hatchedOn: '2026-10-01' } }),
    ])
    type('Weight', '58')
    type('Day', '2026-09-01')
    press('Save')
    expect(
      await screen.findByText(/^Day cannot be “2026-09-01”\. Accepted: a time after it hatched/),
    ).toBeTruthy()
  })

  test('at the time of another is asked about, and kept when saved again', async () => {
    const { store } = await openRecord('#animal/Ember/weigh', animalWith('Ember', [58]))
    type('Weight', '57')
    press('Save')
    expect(
      await screen.findByText('There is a weight of that time already: 58 g. Save again to keep both.'),
    ).toBeTruthy()
    expect(store.record().animals[0]?.weighIns).toHaveLength(1)
    press('Save')
    await arriveAt('Ember')
    expect(store.record().animals[0]?.weighIns).toHaveLength(2)
  })
})

describe('all entries', () => {
  test('are newest first, can be deleted, and brought back', async () => {
    const { store } = await openRecord('#animal/Ember/past', animalWith('Ember', [60, 61]))
    const [first] = screen.getAllByRole('listitem')
    expect(first?.textContent).toContain('61 g')
    press(/^Delete/)
    await waitFor(() => expect(store.record().animals[0]?.weighIns).toHaveLength(1))
    expect(screen.getByText('Deleted: 61 g.')).toBeTruthy()
    press('Undo')
    await waitFor(() => expect(store.record().animals[0]?.weighIns).toHaveLength(2))
  })

  test('are changed on the screen they were made on', async () => {
    const { store } = await openRecord('#animal/Ember/past', animalWith('Ember', [60, 61]))
    press(/^Change/)
    await arriveAt('Change a weight of Ember')
    expect(screen.getByLabelText<HTMLInputElement>('Weight').value).toBe('61')
    type('Weight', '60.5')
    press('Save')
    await arriveAt('Ember')
    expect(store.record().animals[0]?.weighIns[1]?.massGrams).toBe(60.5)
  })
})

describe('something that happened', () => {
  test('asks of a lost tail how much came off', async () => {
    const { store } = await openRecord('#animal/Ember/happened', animalWith('Ember', [60]))
    press('Lost its tail')
    await arriveAt('Lost its tail')
    choose('How much came off', '0.5')
    press('Save')
    await arriveAt('Ember')
    expect(store.record().animals[0]?.events).toMatchObject([{ kind: 'tail-lost', share: 0.5 }])
  })

  test('asks of a shed where skin stayed', async () => {
    const { store } = await openRecord('#animal/Ember/happened', animalWith('Ember', [60]))
    press('Shed its skin')
    await arriveAt('Shed its skin')
    screen.getByLabelText('All of the skin came off').click()
    ;(await screen.findByLabelText('On the tip of the tail')).click()
    await waitFor(() => expect(document.querySelector('.gecko-marked')).toBeTruthy())
    press('Save')
    await arriveAt('Ember')
    expect(store.record().animals[0]?.events).toMatchObject([{ whole: false, stuckAt: ['region-tail-tip'] }])
  })

  test('refuses more eaten than offered', async () => {
    await openRecord('#animal/Ember/happened', animalWith('Ember', [60]))
    press('Meal')
    await arriveAt('Meal')
    type('Offered', '5')
    type('Eaten', '6')
    press('Save')
    expect(
      await screen.findByText('Eaten cannot be “6”. Accepted: up to the 5 that were offered.'),
    ).toBeTruthy()
  })
})

describe('how its body looks', () => {
  const pick = async (label: string | RegExp) => {
    screen.getByLabelText(label).click()
    await waitFor(() => expect(screen.getByLabelText<HTMLInputElement>(label).checked).toBe(true))
    press('Continue')
  }

  test('the thinner of two views wins, and that they disagree is said', async () => {
    const { store } = await openRecord('#animal/Ember/look', animalWith('Ember', [60]))
    await pick(/^About as wide as the neck/)
    await arriveAt('How do the hips and the backbone look?')
    await pick(/^Hip points and backbone can be seen/)
    await arriveAt('How full are the flanks and thighs?')
    await pick('Smooth')
    await arriveAt('Are there soft pads behind the front legs?')
    await pick('No pads')
    await arriveAt('It looks 2 of 5, thin')
    expect(screen.getByText('The two do not agree. The thinner one counts.')).toBeTruthy()
    press('Save')
    await arriveAt('Ember')
    expect(store.record().animals[0]?.readings).toMatchObject([{ value: 2 }])
  })

  test('the drawing takes the shape that is chosen', async () => {
    await openRecord('#animal/Ember/look', animalWith('Ember', [60]))
    const outline = () => document.querySelector('path.gecko-skin')?.getAttribute('d')
    const before = outline()
    screen.getByLabelText(/^Half as wide as the neck/).click()
    await waitFor(() => expect(outline()).not.toBe(before))
  })

  test('a regrown tail is not looked at, and why is said', async () => {
    await openRecord('#animal/Ember/look', [
      entry({ kind: 'animal', animalId: 'Ember', animal: { name: 'Ember', tail: 'regrown' } }),
    ])
    expect(heading()).toBe('How do the hips and the backbone look?')
    for (let at = 0; at < 3; at++) {
      press('Continue')
      await waitFor(() => expect(screen.queryByText(`Look ${at + 1} of 3`)).toBeNull())
    }
    expect(screen.getByText(/^The tail grew again and stores more fat/)).toBeTruthy()
    expect(heading()).toBe('This cannot be told yet')
  })
})

describe('a notebook', () => {
  test('moves the day on, saves each line at once, and says how many are in', async () => {
    const { store } = await openRecord('#animal/Ember/notebook', animalWith('Ember', []))
    type('Day', '2026-09-01')
    for (const weight of ['58', '58.4', '59']) {
      type('Weight', weight)
      press('Next line')
      await waitFor(() => expect(screen.getByLabelText<HTMLInputElement>('Weight').value).toBe(''))
    }
    await waitFor(() => expect(screen.getByText('3 in so far.')).toBeTruthy())
    expect(
      store.record().animals[0]?.weighIns.map(({ at, massGrams }) => [at.slice(0, 10), massGrams]),
    ).toEqual([
      ['2026-09-01', 58],
      ['2026-09-08', 58.4],
      ['2026-09-15', 59],
    ])
  })
})

describe('the shelf', () => {
  test('puts first who needs a look, names places, and says who is due', async () => {
    await openRecord('#shelf', [
      ...animalWith('Steady', STEADY),
      ...animalWith('Falling', FALL),
      entry({
        kind: 'animal',
        animalId: 'Falling',
        animal: { name: 'Falling', place: { room: 'Study', rack: 'rack 2', tub: 'tub 7' } },
      }),
    ])
    const [first, second] = within(screen.getByRole('main')).getAllByRole('listitem')
    expect(first?.textContent).toContain('Falling · Study, rack 2, tub 7')
    expect(first?.textContent).toContain('A vet within 24 hours, at least. 14 % under its best. 52 g today.')
    expect(second?.textContent).toContain('Steady')
  })

  test('tells when several of one room lose weight', async () => {
    const inStudy = (name: string) =>
      entry({ kind: 'animal', animalId: name, animal: { name, place: { room: 'Study' } } })
    await openRecord('#shelf', [
      ...animalWith('One', FALL),
      ...animalWith('Two', FALL),
      inStudy('One'),
      inStudy('Two'),
    ])
    expect(screen.getByRole('heading', { name: 'Study' })).toBeTruthy()
    expect(screen.getByText('One, Two.')).toBeTruthy()
  })

  test('has a card for each cage', async () => {
    await openRecord('#shelf/cards', [...animalWith('One', STEADY), ...animalWith('Two', [])])
    expect(screen.getAllByRole('heading', { level: 2 }).map(({ textContent }) => textContent)).toEqual([
      'One',
      'Two',
    ])
    expect(screen.getByText('Not weighed yet')).toBeTruthy()
  })
})

describe('keeping', () => {
  test('shows what a backup would change before anything is written', async () => {
    const { store } = await openRecord('#keep', animalWith('Ember', [60]))
    const other = {
      format: 'duskcheck-backup',
      version: 1,
      written: ago(0),
      entries: animalWith('Moss', [50, 51]),
    }
    const input = screen.getByLabelText<HTMLInputElement>('Read a backup file')
    Object.defineProperty(input, 'files', { value: [new File([JSON.stringify(other)], 'backup.json')] })
    input.dispatchEvent(new Event('change', { bubbles: true }))
    expect(await screen.findByText('Moss: a new animal, 2 new.')).toBeTruthy()
    expect(store.record().animals).toHaveLength(1)
    press('Take it in')
    await waitFor(() => expect(store.record().animals).toHaveLength(2))
  })

  test('says what is wrong with a file that is no backup', async () => {
    await openRecord('#keep')
    const input = screen.getByLabelText<HTMLInputElement>('Read a backup file')
    Object.defineProperty(input, 'files', { value: [new File(['hello'], 'x.json')] })
    input.dispatchEvent(new Event('change', { bubbles: true }))
    expect(await screen.findByText('Nothing was taken in')).toBeTruthy()
    expect(screen.getByText(/Accepted: a backup file made by Duskcheck/)).toBeTruthy()
  })

  test('asks which day an unclear date is, then whose weights they are', { timeout: 30_000 }, async () => {
    const { store } = await openRecord('#keep', animalWith('Ember', []))
    type('Or paste it here', 'date,weight (g)\n03/04/2026,58\n05/04/2026,59\n')
    press('Read what is pasted')
    choose(
      await screen
        .findByText('Which day is “03/04/2026”?', {}, FETCHED)
        .then(label => label.textContent ?? ''),
      'day-first',
    )
    choose(
      await screen.findByText('Whose weights are these?', {}, FETCHED).then(label => label.textContent ?? ''),
      'Ember',
    )
    expect(await screen.findByText('Ember: 2 new.', {}, FETCHED)).toBeTruthy()
    press('Take it in')
    await waitFor(() =>
      expect(store.record().animals[0]?.weighIns.map(({ at }) => at.slice(0, 10))).toEqual([
        '2026-04-03',
        '2026-04-05',
      ]),
    )
  })
})
