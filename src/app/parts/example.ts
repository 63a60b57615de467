import type { VNode } from 'preact'

/** One part in one state, for the sheet of all parts (`look/sheet.html`). */
export interface Example {
  readonly title: string
  readonly show: () => VNode
}
