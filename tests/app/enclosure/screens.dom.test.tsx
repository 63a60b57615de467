import 'fake-indexeddb/auto'
import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact'
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { afterEach, describe, expect, it } from 'vitest'
import type { Moment } from '../../../shared/moment.ts'
import { EnclosureScreens, type EnclosureScreensProps } from '../../../src/app/enclosure/EnclosureScreens.tsx'
import { nightsIn } from '../../../src/app/enclosure/LoggerPlot.tsx'
import { loggerOutcome } from '../../../src/app/enclosure/logger-outcome.ts'
import { saveReading } from '../../../src/records/actions.ts'
import { openKeeperStore } from '../../../src/records/keeper-store.ts'
import { realEnclosure } from '../../enclosure/real.ts'
import { compiled } from '../screens/walk.ts'

const NOW: Moment = { instant: '2026-11-25T19:00:00Z', zone: 'Europe/London' }
const enclosure = realEnclosure()
let stores = 0

type Given = Partial<Pick<EnclosureScreensProps, 'hash' | 'behind'>>

/** The screens with the one thing the app does for them: going from one to the next. */
function Screens(props: Pick<EnclosureScreensProps, 'store' | 'behind'> & { readonly from: string }): VNode {
  const [at, setAt] = useState(props.from)
  const follow = (event: Event) => {
    const href = event.target instanceof Element ? event.target.closest('a')?.getAttribute('href') : null
    if (href?.startsWith('#enclosure')) setAt(href)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: stands for the window, which follows links
    // biome-ignore lint/a11y/useKeyWithClickEvents: the links inside take the keys
    <div onClick={follow}>
      <EnclosureScreens
        hash={at}
        title="The check"
        frame={compiled.frame}
        store={props.store}
        clock={() => NOW}
        locale="en-GB"
        onGo={setAt}
        behind={props.behind}
        readLogger={loggerOutcome}
      />
    </div>
  )
}

/** Opens a screen of the check over a record of its own. */
async function open({ hash = '#enclosure', behind }: Given = {}, withAnimal = false) {
  stores += 1
  const store = openKeeperStore(`enclosure-${stores}`)
  await store.opened
  const animalId = `animal-${stores}`
  if (withAnimal) {
    const writing = store.writing(NOW.instant)
    await store.append([
      { entryId: writing.newId(), written: NOW.instant, kind: 'animal', animalId, animal: { name: 'Ember' } },
      saveReading(store.writing(NOW.instant), animalId, {
        at: '2026-11-20T19:00:00Z',
        what: 'warm-spot',
        value: 26,
        unit: 'celsius',
      }),
    ])
  }
  render(<Screens store={store} behind={behind} from={withAnimal ? `#enclosure/${animalId}` : hash} />)
  return { store, animalId }
}

const link = (name: RegExp) => fireEvent.click(screen.getByRole('link', { name }))
const type = (name: string, value: string) =>
  fireEvent.input(screen.getByLabelText(name), { target: { value } })
const heading = () => screen.getByRole('heading', { level: 1 }).textContent
// This DOM does not send a form by a button that stands outside it.
const send = () => fireEvent.submit(document.querySelector('form') ?? document.body)

afterEach(cleanup)

describe('every field of the check', () => {
  for (const { id, name } of enclosure.groups) {
    const numbers = enclosure.items.filter(item => item.group === id && item.kind === 'amount')
    for (const item of numbers)
      it(`${name}: "${item.ask}" names what it cannot take and what is accepted`, async () => {
        await open({ hash: `#enclosure/-/${id}` })
        type(item.ask, 'about 3')
        send()
        const fault = await screen.findByText(/^This reading cannot be “about 3”\. Accepted: a number from /)
        expect(fault.textContent).toContain(String(item.range?.to))
        expect(heading()).toBe(name)
        // Empty again, it is simply not known.
        type(item.ask, '')
        send()
        await waitFor(() => expect(heading()).not.toBe(name))
      })
  }

  it('has a way to find out for each thing that is asked', async () => {
    for (const { id } of enclosure.groups) {
      await open({ hash: `#enclosure/-/${id}` })
      for (const item of enclosure.items.filter(one => one.group === id))
        expect(screen.getByText(item.findOut)).toBeTruthy()
      cleanup()
    }
  })
})

describe('the result', () => {
  it('says that a good home makes no sick animal well, also where nothing is wrong', async () => {
    await open({ hash: '#enclosure/-/result' })
    expect(screen.getByText(/A good home does not make a sick animal well\./)).toBeTruthy()
    expect(screen.getByText('Nothing yet: too little was told.')).toBeTruthy()
  })

  it('keeps what was typed with the animal, and nothing that the record gave', async () => {
    const { store, animalId } = await open({}, true)
    await screen.findByText(/^The home of Ember/)
    link(/^Warmth/)
    const spot = enclosure.items.find(({ id }) => id === 'warm-spot')?.ask ?? ''
    const cool = enclosure.items.find(({ id }) => id === 'cool-side')?.ask ?? ''
    await waitFor(() => expect(screen.getByLabelText<HTMLInputElement>(spot).value).toBe('26'))
    type(cool, '24')
    link(/^Go to what it comes to/)
    expect(heading()).toBe('2 things to put right')
    const [first] = screen.getAllByRole('heading', { level: 3 })
    expect(first?.textContent).toBe('1. The warm spot is too cold')
    const keep = screen.getByRole('button', { name: 'Keep the reading with Ember' })
    fireEvent.submit(keep.closest('form') ?? keep)
    await screen.findByText('1 reading is kept with Ember.')
    const kept = store.record().animals.find(one => one.animalId === animalId)
    expect(kept?.readings.map(({ what, value }) => [what, value])).toEqual([
      ['warm-spot', 26],
      ['cool-side', 24],
    ])
  })

  it('puts first what bears on the concern of the case, and fills in what the case said', async () => {
    const behind = {
      caseKey: 'one',
      concerns: ['retained-shed'],
      caseFile: { answers: { company: { kind: 'choice', choice: 'with-others', given: NOW.instant } } },
    } as const
    await open({ behind })
    link(/^First, what bears on: Old skin is stuck/)
    const asked = screen.getAllByText(/\?$/).map(({ textContent }) => textContent)
    expect(asked).toContain('Is there a damp hide?')
    cleanup()
    await open({ behind, hash: '#enclosure/-/result' })
    const names = screen.getAllByRole('heading', { level: 3 }).map(({ textContent }) => textContent)
    expect(names).toEqual(['1. It does not live alone'])
  })
})

describe('a logger’s file', () => {
  const give = (text: string, name = 'file.csv') =>
    fireEvent.change(screen.getByLabelText('The file'), { target: { files: [new File([text], name)] } })

  it('is asked about where it does not tell, and summed up once answered', async () => {
    await open({ hash: '#enclosure/-/file' })
    const rows = Array.from({ length: 24 }, (_, hour) => `2026-05-04 ${String(hour).padStart(2, '0')}:00,86`)
    give(['time,temperature', ...rows].join('\n'))
    const question = await screen.findByLabelText('Is the temperature in degrees Celsius or Fahrenheit?')
    fireEvent.change(question, { target: { value: 'fahrenheit' } })
    fireEvent.submit(question.closest('form') ?? question)
    const part = await screen.findByRole('region', { name: 'Temperature' })
    expect(within(part).getByText(/^By day: lowest 30 °C/)).toBeTruthy()
  })

  it('that is no table is refused with what is accepted', async () => {
    await open({ hash: '#enclosure/-/file' })
    give('a letter to a friend')
    const alert = await screen.findByText('Nothing was taken in')
    expect(alert.parentElement?.textContent).toContain('a table with a date or time')
  })

  it('has each night of its days shaded, cut off at both ends', () => {
    const hour = 3_600_000
    const nights = nightsIn(0, 48 * hour, { dayFromHour: 8, dayToHour: 20 })
    expect(nights.map(([from, to]) => [from / hour, to / hour])).toEqual([
      [0, 8],
      [20, 32],
      [44, 48],
    ])
  })
})
