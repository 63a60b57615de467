/** Weights as a table (CSV), out and in. */
import type { VNode } from 'preact'
import type { Preview } from '../../records/preview.ts'
import type { Room } from './keeper.ts'

export function TablePart(_: {
  readonly room: Room
  readonly onTake: (entries: Preview['entries']) => Promise<void>
}): VNode | null {
  return null
}
