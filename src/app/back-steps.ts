import { useEffect, useState } from 'preact/hooks'

/** Hashes that are screens of their own; any other is a place on the screen that is shown. */
const VIEWS =
  /^#(?:start|phone|answers|example|anew|delete|animals?|shelf|keep|enclosure|clinic|clinic-link|history|prepare)(?:\/|$)/
const viewNow = () => (VIEWS.test(globalThis.location.hash) ? globalThis.location.hash : '')
const addressWithoutHash = () => globalThis.location.pathname + globalThis.location.search

/** What the browser keeps with each entry of this visit: whose it is, its place, and how many views deep it is. */
interface Entry {
  readonly visit: number
  readonly at: number
  readonly views: number
}

function isEntry(state: unknown): state is Entry {
  return typeof state === 'object' && state !== null && 'visit' in state && 'at' in state && 'views' in state
}

/** What the steps ask of the case. */
export interface Behind {
  /** One screen of the case back. */
  readonly back: () => Promise<void>
  /** Whether a question or an outcome is there to go back from. */
  readonly isUnderWay: () => boolean
}

export interface BackSteps {
  /** The next screen of the case: one more step for Back. */
  readonly forward: () => void
  /** Opens a view over what is shown. */
  readonly open: (view: string) => void
  /** The case went one screen back by a button; the browser's entries follow. */
  readonly stepped: () => void
  /** Closes the view: to the one before it, else to the case. */
  readonly leave: () => void
  /** Closes every view, so that the case shows. */
  readonly leaveAll: () => void
  /** Hears the browser until the returned function is called. */
  readonly listen: () => () => void
}

/**
 * Makes the browser's Back go one screen back, through views and through the questions of a case. Nothing of an
 * answer stands in the address or in an entry.
 *
 * @param behind the case as it is when it is asked
 * @param onView told the view that lies over the case, as `#phone`, or nothing
 */
function backSteps(behind: () => Behind, onView: (view: string) => void): BackSteps {
  const { history } = globalThis
  const visit = Math.random()
  let at = 0
  let views = 0
  /** Per entry, whether it is a screen of the case; the others are views. */
  const isScreen = [true]
  /** Steps back that this page asked for itself. */
  let own = 0

  const stamp = (address?: string) => history.replaceState({ visit, at, views }, '', address)
  const forward = () => {
    at += 1
    views = 0
    isScreen[at] = true
    history.pushState({ visit, at, views }, '', addressWithoutHash())
    onView('')
  }
  const arrived = async (entry: Entry) => {
    const left = at
    at = entry.at
    views = entry.views
    onView(viewNow())
    if (own > 0) {
      own -= 1
      return
    }
    for (let place = left; place > entry.at; place -= 1)
      if (isScreen[place] && behind().isUnderWay()) await behind().back()
    if (left <= entry.at || entry.views > 0) return
    // A case that was taken up has more questions behind it than entries; one that was left has fewer.
    if (entry.at === 0 && behind().isUnderWay()) forward()
    if (entry.at > 0 && !behind().isUnderWay()) history.back()
  }
  const popped = ({ state }: PopStateEvent) => {
    if (!isEntry(state)) return
    // An entry of before the page was loaded again has nothing behind it any more.
    if (state.visit === visit) void arrived(state)
    else history.back()
  }
  /** A link on the page was followed: to a view, or to a place on the screen. */
  const linked = () => {
    const view = viewNow()
    if (isEntry(history.state) || (view === '' && globalThis.location.hash !== '')) return
    at += 1
    views = view === '' ? 0 : views + 1
    isScreen[at] = false
    stamp()
    onView(view)
  }
  const close = (count: number) => {
    if (views > 0) history.go(-count)
    // The page was opened at a view: there is nothing to go back to.
    else if (viewNow() !== '') {
      stamp(addressWithoutHash())
      onView('')
    }
  }
  return {
    forward,
    open: view => {
      at += 1
      views += 1
      isScreen[at] = false
      history.pushState({ visit, at, views }, '', view)
      onView(view)
    },
    stepped: () => {
      if (at === 0 || !isScreen[at - 1]) return
      own += 1
      history.back()
    },
    leave: () => close(1),
    leaveAll: () => close(views),
    listen: () => {
      stamp()
      globalThis.addEventListener('popstate', popped)
      globalThis.addEventListener('hashchange', linked)
      return () => {
        globalThis.removeEventListener('popstate', popped)
        globalThis.removeEventListener('hashchange', linked)
      }
    },
  }
}

/** The steps of this page, with the view that is open. */
export function useBackSteps(behind: () => Behind): BackSteps & { readonly view: string } {
  const [view, setView] = useState(viewNow)
  const [steps] = useState(() => backSteps(behind, setView))
  useEffect(() => steps.listen(), [steps])
  return { ...steps, view }
}
