import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact'
import { userEvent } from '@testing-library/user-event'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { doorsOf } from '../../../src/app/doors.ts'
import { StartSearch } from '../../../src/app/screens/StartSearch.tsx'
import { labels } from '../../../src/app/wording/labels.ts'
import { loadSearchWords } from '../../../src/protocol/search-words.ts'
import { findDoors } from '../../../src/search/find-doors.ts'
import { compiled } from './walk.ts'

afterEach(cleanup)

const words = loadSearchWords(`${process.cwd()}/content`, 'leopard-gecko', compiled.frame)
if (!words.ok || !words.searchWords) throw new Error('The words of the search do not load.')
const vocabulary = words.searchWords
const doors = doorsOf(compiled.frame)
const labelOf = (id: string) => [...doors.concerns, ...doors.signs].find(door => door.id === id)?.label ?? ''

function open() {
  const onSign = vi.fn()
  const onConcerns = vi.fn()
  render(
    <StartSearch
      doors={doors}
      vocabulary={vocabulary}
      findDoors={findDoors}
      onSign={onSign}
      onConcerns={onConcerns}
    />,
  )
  return { onSign, onConcerns }
}
const field = () => screen.getByLabelText(labels.ownWords)
const type = (text: string) => fireEvent.input(field(), { target: { value: text } })
/** The doors shown, in their order. */
const rows = () =>
  screen.getAllByRole('button').flatMap(button => button.querySelector('.link-card-label')?.textContent ?? [])

describe('the search in own words', () => {
  test('shows the fitting doors as one types, the best first, and says how many', async () => {
    open()
    type('goo in eye')
    await screen.findByRole('checkbox', { name: labels.tickDoor(labelOf('eye')) })
    expect(rows()[0]).toBe(labelOf('eye'))
    expect(screen.getAllByRole('status')[0]?.textContent).toBe(labels.doorsFit(1))
    expect(rows()).toContain(labelOf(vocabulary.nothingFound))
  })

  test('puts an urgent door first and says that it is one; it cannot be kept for later', async () => {
    const { onSign } = open()
    type('butt thing hanging out')
    await screen.findByText(labels.urgentFirst)
    expect(rows()[0]).toBe(labelOf('look-under'))
    expect(screen.queryByRole('checkbox', { name: labels.tickDoor(labelOf('look-under')) })).toBeNull()
    fireEvent.click(screen.getByText(labels.urgentFirst))
    expect(onSign).toHaveBeenCalledWith('look-under')
  })

  test('leads to the urgent signs where nothing fits', async () => {
    open()
    type('xqzzk')
    await screen.findByText(labels.noDoorFits)
    expect(rows().slice(0, doors.signs.length + 1)).toEqual([
      ...doors.signs.map(({ label }) => label),
      labelOf(vocabulary.nothingFound),
    ])
  })

  test('begins with one worry at one tap', async () => {
    const { onConcerns } = open()
    type('wont poop')
    await waitFor(() => expect(rows()[0]).toBe(labelOf('droppings')))
    const [first] = screen.getAllByRole('button')
    if (first) fireEvent.click(first)
    expect(onConcerns).toHaveBeenCalledWith(['droppings'])
  })

  test("keeps what was ticked while other words are typed, and begins with all of it in the protocol's order", async () => {
    const { onConcerns } = open()
    type('goo in eye')
    fireEvent.click(await screen.findByRole('checkbox', { name: labels.tickDoor(labelOf('eye')) }))
    type('not eating')
    fireEvent.click(await screen.findByRole('checkbox', { name: labels.tickDoor(labelOf('not-eating')) }))
    fireEvent.click(await screen.findByRole('button', { name: labels.beginTicked(2) }))
    expect(onConcerns).toHaveBeenCalledWith(['not-eating', 'eye'])
  })

  test('goes by keyboard: Enter in the field leads to the first door', async () => {
    const user = userEvent.setup()
    open()
    await user.type(field(), 'lump')
    await waitFor(() => expect(rows()[0]).toBe(labelOf('lump')))
    await user.keyboard('{Enter}')
    expect(document.activeElement?.textContent).toContain(labelOf('lump'))
  })
})

describe('the places of the body', () => {
  test('each leads to its doors, by the list and by the drawing', async () => {
    open()
    for (const { name, doors: ids } of vocabulary.bodyParts) {
      fireEvent.click(screen.getByRole('button', { name, pressed: false }))
      await screen.findByRole('button', { name, pressed: true })
      for (const id of ids) expect(rows()).toContain(labelOf(id))
    }
  })

  test('a tap on the drawing chooses the same place', async () => {
    open()
    const tail = document.querySelector('[data-region="region-tail-tip"]')
    if (tail) fireEvent.click(tail)
    const chosen = await screen.findByRole('button', { pressed: true })
    expect(within(chosen).getByText('Tail')).toBeTruthy()
  })

  test('every place that can be tapped belongs to one part only', () => {
    open()
    const tappable = [...document.querySelectorAll('[data-region]')].map(place =>
      place.getAttribute('data-region'),
    )
    expect(tappable.length).toBeGreaterThan(8)
    expect(new Set(tappable).size).toBe(tappable.length)
  })
})
