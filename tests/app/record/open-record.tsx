import 'fake-indexeddb/auto'
import { fireEvent, render, screen, waitFor, within } from '@testing-library/preact'
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord, RecordEntry } from '../../../shared/record.ts'
import { recordContentOf } from '../../../src/app/record/keeper.ts'
import { fetchMore } from '../../../src/app/record/More.tsx'
import { RecordScreens } from '../../../src/app/record/RecordScreens.tsx'
import { loadWeights } from '../../../src/protocol/weights.ts'
import { type KeeperStore, openKeeperStore } from '../../../src/records/keeper-store.ts'
import { prepare } from '../../../src/triage/prepare.ts'
import { compiled } from '../screens/walk.ts'

const loaded = loadWeights(`${process.cwd()}/content`, 'leopard-gecko', compiled)
if (!loaded.ok || !loaded.weights) throw new Error('The content on weights cannot be read.')
const content = recordContentOf(prepare(compiled.logic), compiled.frame, loaded.weights)

/** A Wednesday evening in London. */
export const NOW: Moment = { instant: '2026-11-25T19:00:00Z', zone: 'Europe/London' }

/** So many days before `NOW`, as an instant. */
export const ago = (days: number) => new Date(Date.parse(NOW.instant) - days * 86_400_000).toISOString()

let stores = 0
let entries = 0

/** An entry of the record as an earlier visit wrote it. */
export function entry(rest: object): RecordEntry {
  entries += 1
  return {
    entryId: `entry-${entries}`,
    written: new Date(Date.UTC(2026, 0, 1) + entries * 1000).toISOString(),
    ...rest,
  } as RecordEntry
}

/** One animal with weights, newest last, a week apart. */
export function animalWith(
  name: string,
  masses: readonly number[],
  scaleStepGrams = 0.1,
  lastDaysAgo = 0,
): RecordEntry[] {
  return [
    entry({ kind: 'animal', animalId: name, animal: { name } }),
    ...masses.map((massGrams, at) =>
      entry({
        kind: 'weigh-in',
        animalId: name,
        itemId: `${name}-${at}`,
        weighIn: { at: ago(lastDaysAgo + 7 * (masses.length - 1 - at)), massGrams, scaleStepGrams },
      }),
    ),
  ]
}

export interface Opened {
  readonly store: KeeperStore
  readonly checked: readonly AnimalRecord[]
}

interface Visit {
  readonly hash: string
  readonly checked: AnimalRecord[]
}

/** The record's screens with the one thing the app does for them: going from one to the next. */
function Screens({ store, visit }: { readonly store: KeeperStore; readonly visit: Visit }): VNode {
  const [at, setAt] = useState(visit.hash)
  const follow = (event: Event) => {
    const link = event.target instanceof Element ? event.target.closest('a') : null
    const href = link?.getAttribute('href')
    if (href?.startsWith('#')) setAt(href)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: stands for the window, which follows links
    // biome-ignore lint/a11y/useKeyWithClickEvents: the links inside take the keys
    <div onClick={follow}>
      <RecordScreens
        hash={at}
        store={store}
        content={content}
        clock={() => NOW}
        locale="en-GB"
        onGo={setAt}
        onCheck={animal => visit.checked.push(animal)}
      />
    </div>
  )
}

/** Shows a screen of a record that holds these entries. */
export async function openRecord(hash: string, kept: readonly RecordEntry[] = []): Promise<Opened> {
  stores += 1
  const store = openKeeperStore(`record-${stores}`)
  await store.opened
  await fetchMore()
  await store.append(kept)
  const visit: Visit = { hash, checked: [] }
  render(<Screens store={store} visit={visit} />)
  await waitFor(() => {
    if (screen.queryByText(/the record is being read|^One moment\.$/)) throw new Error('Still reading')
    // What stands below the chart comes once that is painted.
    if (/^#animal\/[^/]+$/.test(hash) && screen.queryByText('All entries') === null && heading() !== GONE)
      throw new Error('Still being drawn')
  })
  return { store, checked: visit.checked }
}

export function type(label: string | RegExp, value: string): void {
  fireEvent.input(screen.getByLabelText(label), { target: { value } })
}

export function choose(label: string | RegExp, value: string): void {
  fireEvent.change(screen.getByLabelText(label), { target: { value } })
}

export function press(name: string | RegExp, at = 0): void {
  const found = [...screen.queryAllByRole('button', { name }), ...screen.queryAllByRole('link', { name })]
  const one = found[at]
  if (!one) throw new Error(`Nothing to press: ${name}`)
  // This DOM does not send a form by a button that stands outside it.
  const form = one.getAttribute('form')
  if (form) fireEvent.submit(document.getElementById(form) ?? one)
  else if (one.getAttribute('type') === 'submit') fireEvent.submit(one.closest('form') ?? one)
  else fireEvent.click(one)
}

const GONE = 'This animal is not on record'
export const heading = () => screen.getByRole('heading', { level: 1 }).textContent

export async function arriveAt(title: string | RegExp): Promise<void> {
  await waitFor(() => {
    const now = heading() ?? ''
    if (typeof title === 'string' ? now !== title : !title.test(now)) throw new Error(`Still at "${now}"`)
  })
}

export { within }
