/** Something the reader should know about this screen. */
import type { ComponentChildren, VNode } from 'preact'

export interface NoticeProps {
  readonly title?: string
  readonly children?: ComponentChildren
  /** Appears while the screen is open, so it is spoken: `soon` waits its turn, `atOnce` does not. */
  readonly spoken?: 'soon' | 'atOnce'
}

export function Notice(props: NoticeProps): VNode {
  const role = props.spoken === undefined ? undefined : props.spoken === 'soon' ? 'status' : 'alert'
  return (
    <div class="notice" role={role}>
      {props.title === undefined ? null : <p class="notice-title">{props.title}</p>}
      {props.children}
    </div>
  )
}
