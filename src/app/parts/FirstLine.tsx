/** The first line of an outcome: what to do now, large. It is the page's heading. */
import type { VNode } from 'preact'

/** One hue in rising strength; each has a shape of its own besides. */
export type Strength = 'none' | 'faint' | 'clear' | 'strong' | 'full'

export interface FirstLineProps {
  readonly words: string
  readonly more?: string
  readonly strength: Strength
  readonly action?: { readonly label: string; readonly href: string }
}

export function FirstLine(props: FirstLineProps): VNode {
  return (
    <div class={`first-line strength-${props.strength}`}>
      <h1 class="first-line-words" tabIndex={-1}>
        {props.words}
      </h1>
      {props.more === undefined ? null : <p class="first-line-more">{props.more}</p>}
      {props.action === undefined ? null : (
        <a class="action first-line-action" href={props.action.href}>
          {props.action.label}
        </a>
      )}
    </div>
  )
}
