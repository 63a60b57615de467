/** Keeping the record: whether this browser keeps it, a backup file out and in, weights as a table out and in. */
import type { VNode } from 'preact'
import { ActionBar } from '../parts/ActionBar.tsx'
import type { Room } from './keeper.ts'

export function KeepScreen(_: { readonly room: Room }): VNode {
  return (
    <>
      <main class="main record">
        <h1 tabIndex={-1}>Keep and move the record</h1>
      </main>
      <ActionBar back={{ label: 'Animals', href: '#animals' }} />
    </>
  )
}
