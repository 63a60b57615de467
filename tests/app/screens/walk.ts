import { fireEvent, render, screen, waitFor } from '@testing-library/preact'
import { h } from 'preact'
import type { Moment } from '../../../shared/moment.ts'
import { App } from '../../../src/app/App.tsx'
import { firstContent } from '../../../src/app/build/first-content.ts'
import type { LaterContent, Rest } from '../../../src/app/content/later.ts'
import { doorsOf } from '../../../src/app/doors.ts'
import * as screens from '../../../src/app/later-screens.tsx'
import type { Store } from '../../../src/app/use-wizard.ts'
import { compile } from '../../../src/protocol/compile.ts'
import { readSource } from '../../../src/protocol/source.ts'

const source = readSource(`${process.cwd()}/content`, 'leopard-gecko', [])
if (!source) throw new Error('The content cannot be read.')

/** The real protocol, compiled once for all screens; its faults are another test's business. */
export const { protocol: compiled } = compile(source, [])

/** All that is fetched after the first load; the care part is in the logic already. */
const rest: Rest = { ...compiled, screens }
const later: LaterContent = { ...compiled, care: { carePlans: compiled.logic.carePlans, rules: [] } }

export interface OpenOptions {
  readonly store?: Store
  readonly now?: () => Moment
  /** When the chart and the words behind the danger screens come; at once if not given. */
  readonly arrival?: Promise<void>
}

/** A Tuesday night in London. */
export const NIGHT: Moment = { instant: '2026-11-24T23:10:00Z', zone: 'Europe/London' }

export function open({ store, now, arrival = Promise.resolve() }: OpenOptions = {}): void {
  globalThis.location.hash = ''
  render(
    h(App, {
      first: firstContent(compiled),
      doors: doorsOf(compiled.frame),
      rest: arrival.then(() => rest),
      later: arrival.then(() => later),
      clock: now ?? (() => NIGHT),
      locale: 'en-GB',
      ...(store ? { store } : {}),
    }),
  )
}

const WAITING = 'Duskcheck'

export const heading = () => screen.getByRole('heading', { level: 1 })

export async function press(name: string | RegExp): Promise<void> {
  fireEvent.click(screen.getByRole('button', { name }))
  await Promise.resolve()
}

/** Presses a button and waits for another screen. */
export async function goOn(name: string | RegExp): Promise<void> {
  const before = heading().textContent
  await press(name)
  await waitFor(() => {
    const now = heading().textContent
    // The last screens are fetched on their own; until then the page says so.
    if (now === before || now === WAITING) throw new Error(`Still at "${now}"`)
  })
}

export async function tick(name: string | RegExp): Promise<void> {
  const [first] = screen.getAllByLabelText(name)
  if (first) fireEvent.click(first)
  await waitFor(() => {
    if (!(first as HTMLInputElement).checked) throw new Error('Not ticked')
  })
}

/** Past the urgent signs with "none of these". */
export async function toConcern(): Promise<void> {
  await goOn(/^More than one of these/)
  while (heading().textContent !== 'What worries you?') await goOn('None of these')
}
