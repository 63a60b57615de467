import { useEffect, useRef, useState } from 'preact/hooks'

/** Hashes that are screens of their own; any other is a place on the screen that is shown. */
const VIEWS = /^#(?:start|phone|answers|example|anew|delete)(?:\/|$)/

/** What the browser keeps with each of this visit's entries: whose it is, its place, and how many views deep it is. */
interface Entry {
  readonly visit: number
  readonly at: number
  readonly views: number
}

function isEntry(state: unknown): state is Entry {
  return typeof state === 'object' && state !== null && 'visit' in state && 'at' in state && 'views' in state
}

const viewOf = (hash: string) => (VIEWS.test(hash) ? hash : '')

export interface BackSteps {
  /** The view that lies over the case, as `#phone`, or nothing. */
  readonly view: string
  /** The next screen of the case: one more step for Back. */
  readonly forward: () => void
  /** The screen went one step back by itself; the browser's entries follow. */
  readonly stepped: () => void
  /** Closes the view, however many views were gone through. */
  readonly leave: () => void
}

/**
 * Makes the browser's Back go one screen back, through views and through the questions of a case. Nothing of an
 * answer stands in the address or in the entry.
 *
 * @param onBack one screen of the case back; called once for each step
 * @param inCase whether a question or an outcome is there to go back from
 */
export function useBackSteps(onBack: () => Promise<void>, inCase: () => boolean): BackSteps {
  const [view, setView] = useState(() => viewOf(globalThis.location.hash))
  const steps = useRef({
    visit: Math.random(),
    at: 0,
    views: 0,
    /** Per entry, whether it is a screen of the case; the others are views. */
    isScreen: [true],
    /** Steps back that this page asked for itself. */
    own: 0,
  }).current
  const latest = useRef({ onBack, inCase })
  latest.current = { onBack, inCase }

  const bare = () => globalThis.location.pathname + globalThis.location.search
  const push = () => {
    steps.at += 1
    steps.views = 0
    steps.isScreen[steps.at] = true
    globalThis.history.pushState({ visit: steps.visit, at: steps.at, views: 0 }, '', bare())
    setView('')
  }

  useEffect(() => {
    const { history } = globalThis
    const stamp = () => history.replaceState({ visit: steps.visit, at: steps.at, views: steps.views }, '')
    /** Where this visit began: what lies before it is another page, or this one before it was loaded again. */
    stamp()

    const arrived = async (entry: Entry) => {
      const left = steps.at
      steps.at = entry.at
      steps.views = entry.views
      setView(viewOf(globalThis.location.hash))
      if (steps.own > 0) {
        steps.own -= 1
        return
      }
      for (let at = left; at > entry.at; at -= 1)
        if (steps.isScreen[at] && latest.current.inCase()) await latest.current.onBack()
      if (left <= entry.at || entry.views > 0) return
      // A case that was taken up has more questions behind it than entries; one that was left has fewer.
      if (entry.at === 0 && latest.current.inCase()) push()
      if (entry.at > 0 && !latest.current.inCase()) history.back()
    }
    const popped = ({ state }: PopStateEvent) => {
      if (!isEntry(state)) return
      if (state.visit === steps.visit) void arrived(state)
      else history.back()
    }
    /** A link on the page was followed: to a view, or to a place on the screen. */
    const linked = () => {
      if (isEntry(history.state)) return
      const { hash } = globalThis.location
      const isView = viewOf(hash) !== ''
      if (!isView && hash !== '') return
      steps.at += 1
      steps.views = isView ? steps.views + 1 : 0
      steps.isScreen[steps.at] = false
      stamp()
      setView(viewOf(hash))
    }
    globalThis.addEventListener('popstate', popped)
    globalThis.addEventListener('hashchange', linked)
    return () => {
      globalThis.removeEventListener('popstate', popped)
      globalThis.removeEventListener('hashchange', linked)
    }
  }, [])

  return {
    view,
    forward: push,
    stepped: () => {
      if (steps.at === 0 || !steps.isScreen[steps.at - 1]) return
      steps.own += 1
      globalThis.history.back()
    },
    leave: () => {
      if (view === '') return
      if (steps.views > 0) globalThis.history.go(-steps.views)
      else {
        globalThis.history.replaceState({ visit: steps.visit, at: steps.at, views: 0 }, '', bare())
        setView('')
      }
    },
  }
}
