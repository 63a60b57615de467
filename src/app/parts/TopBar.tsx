/** The same on every screen: whose page this is, and the way to a vet. */
import type { VNode } from 'preact'

export interface TopBarProps {
  readonly name: string
  readonly homeHref: string
  readonly phoneLabel: string
  readonly phoneHref: string
}

export function TopBar(props: TopBarProps): VNode {
  return (
    <header class="top-bar">
      <a class="wordmark" href={props.homeHref}>
        <svg
          class="wordmark-mark"
          viewBox="0 0 28 20"
          width="28"
          height="20"
          aria-hidden="true"
          focusable="false"
        >
          <path d="M6 12a8 8 0 0 1 16 0Z" fill="currentColor" />
          <path d="M1 15.5h26M7 19h14" stroke="currentColor" stroke-width="2" stroke-linecap="round" />
        </svg>
        {props.name}
      </a>
      <a class="phone-link" href={props.phoneHref}>
        <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" focusable="false">
          <path
            d="M6.2 2.6 8 6.4 6.3 8.2a12 12 0 0 0 5.5 5.5l1.8-1.7 3.8 1.8v2.4a1.6 1.6 0 0 1-1.8 1.6A14.5 14.5 0 0 1 2.2 4.4a1.6 1.6 0 0 1 1.6-1.8Z"
            fill="none"
            stroke="currentColor"
            stroke-width="1.8"
            stroke-linejoin="round"
          />
        </svg>
        {props.phoneLabel}
      </a>
    </header>
  )
}
