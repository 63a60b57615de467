import type { VNode } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { firstLabels as labels } from '../wording/first-labels.ts'
import { Page } from './parts.tsx'

type Screens = typeof import('./more-screens.ts')

/** Stays once it has come. */
let come: Screens | undefined

/** Fetches them. */
export async function fetchMore(): Promise<Screens> {
  come = await import('./more-screens.ts')
  return come
}

/** A screen that is fetched when it is opened. The person has asked for it, and no answer decides it. */
export function More({ children }: { readonly children: (screens: Screens) => VNode }): VNode {
  const [screens, setScreens] = useState(come)
  const [isRefused, setRefused] = useState(false)
  useEffect(() => {
    if (come !== undefined) return
    fetchMore().then(
      fetched => setScreens(fetched),
      () => setRefused(true),
    )
  }, [])
  const [wasThere] = useState(screens !== undefined)
  useEffect(() => {
    if (wasThere || screens === undefined) return
    // The app has announced the heading of the wait; this is the one that was meant.
    const heading = document.querySelector<HTMLElement>('h1')
    document.title = `${heading?.textContent} · ${labels.appName}`
    if (document.activeElement === document.body) heading?.focus({ preventScroll: true })
  }, [screens, wasThere])
  if (screens !== undefined) return children(screens)
  return (
    <Page title="One moment" back={{ label: 'Animals', href: '#animals' }}>
      <p role="status">
        {isRefused ? 'This part could not be fetched. Load the page again with a network.' : ''}
      </p>
    </Page>
  )
}
