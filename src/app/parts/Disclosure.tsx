/** More, if wanted: the browser's own details element, so it works before any script. */
import type { ComponentChildren, VNode } from 'preact'

export interface DisclosureProps {
  readonly summary: string
  readonly children: ComponentChildren
  readonly open?: boolean
}

export function Disclosure(props: DisclosureProps): VNode {
  return (
    <details class="disclosure" open={props.open}>
      <summary class="disclosure-summary">{props.summary}</summary>
      <div class="disclosure-body">{props.children}</div>
    </details>
  )
}
