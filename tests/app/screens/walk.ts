import { fireEvent, render, screen, waitFor } from '@testing-library/preact'
import { h } from 'preact'
import type { Moment } from '../../../shared/moment.ts'
import { App } from '../../../src/app/App.tsx'
import type { Store } from '../../../src/app/use-wizard.ts'
import { compile } from '../../../src/protocol/compile.ts'
import { readSource } from '../../../src/protocol/source.ts'
import { prepare } from '../../../src/triage/prepare.ts'

const source = readSource(`${process.cwd()}/content`, 'leopard-gecko', [])
if (!source) throw new Error('The content cannot be read.')

/** The real protocol, compiled once for all screens; its faults are another test's business. */
export const { protocol: compiled } = compile(source, [])
export const protocol = prepare(compiled.logic)

/** A Tuesday night in London. */
export const NIGHT: Moment = { instant: '2026-11-24T23:10:00Z', zone: 'Europe/London' }

export function open(options: { readonly store?: Store; readonly now?: () => Moment } = {}): void {
  globalThis.location.hash = ''
  render(
    h(App, {
      protocol,
      frame: compiled.frame,
      dangerWords: compiled.dangerWords,
      later: Promise.resolve(compiled),
      clock: options.now ?? (() => NIGHT),
      locale: 'en-GB',
      ...(options.store ? { store: options.store } : {}),
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
  await goOn(/None of these, go through/)
  while (heading().textContent !== 'What worries you?') await goOn('None of these')
}
