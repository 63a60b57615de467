/** What to do next, at the bottom where the thumb is. The main action comes last, on the right. */
import type { VNode } from 'preact'

export interface Action {
  readonly label: string
  readonly onPress?: () => void
  /** A link instead of a button. */
  readonly href?: string
  /** Sends the form with this id. */
  readonly form?: string
}

export interface ActionBarProps {
  readonly main?: Action
  readonly back?: Action
  readonly other?: Action
  /** Stands after the last line instead of over the page, so that no line is passed unseen. */
  readonly flows?: boolean
}

export function ActionBar({ main, back, other, flows }: ActionBarProps): VNode {
  return (
    <footer class={flows ? 'action-bar action-bar-flows' : 'action-bar'}>
      <div class="action-bar-inner">
        {back === undefined ? null : <ActionButton action={back} kind="" />}
        {other === undefined ? null : <ActionButton action={other} kind=" action-quiet" />}
        {main === undefined ? null : <ActionButton action={main} kind=" action-main" />}
      </div>
    </footer>
  )
}

function ActionButton({ action, kind }: { action: Action; kind: string }): VNode {
  const { label, onPress, href, form } = action
  if (href !== undefined) {
    return (
      <a class={`action${kind}`} href={href} onClick={onPress}>
        {label}
      </a>
    )
  }
  return (
    <button
      class={`action${kind}`}
      type={form === undefined ? 'button' : 'submit'}
      form={form}
      onClick={onPress}
    >
      {label}
    </button>
  )
}
