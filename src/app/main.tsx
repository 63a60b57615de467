import danger from 'virtual:protocol/danger'
import logic from 'virtual:protocol/logic'
import { hydrate, render } from 'preact'
import { openStore } from '../records/store.ts'
import { caseUnderWay, type Unfinished } from '../records/under-way.ts'
import { prepare } from '../triage/prepare.ts'
import { App } from './App.tsx'
import { loadLater } from './content/later.ts'

/** Where the choice between dark and light is kept, once someone made it: `dark` or `light`. */
const SCHEME_KEY = 'duskcheck.scheme'
const NIGHT_FROM_HOUR = 20
const NIGHT_TO_HOUR = 7

/** A browser may refuse its storage altogether; then nothing was chosen. */
function chosenScheme(): string | null {
  try {
    return localStorage.getItem(SCHEME_KEY)
  } catch {
    return null
  }
}

/** Dark at night whatever the system says, unless someone chose otherwise. */
function setScheme() {
  const chosen = chosenScheme()
  const hour = new Date().getHours()
  const night = hour >= NIGHT_FROM_HOUR || hour < NIGHT_TO_HOUR
  if (chosen === 'dark' || chosen === 'light') document.documentElement.dataset.scheme = chosen
  else if (night) document.documentElement.dataset.scheme = 'dark'
}

function firstPaint(): Promise<void> {
  return new Promise(resolve => requestAnimationFrame(() => setTimeout(resolve)))
}

/**
 * Lets the page open without a network next time. A newer version that waits takes over once every file of this one
 * is loaded, and never while a case is under way.
 */
async function keepOffline(isUnderWay: boolean): Promise<void> {
  const worker = await navigator.serviceWorker?.register('./service-worker.js')
  if (!isUnderWay) worker?.waiting?.postMessage('take-over')
}

function start(place: HTMLElement) {
  const protocol = prepare(logic)
  const store = caseUnderWay(openStore(), logic)
  const painted = firstPaint()
  // Both ask for files of the app, and begin in the same turn so that the order of asking never changes.
  const takenUp = painted.then(store.takeUp).catch(() => undefined)
  const later = painted.then(loadLater)
  const app = (unfinished?: Unfinished) => (
    <App
      protocol={protocol}
      frame={danger.frame}
      dangerWords={danger.dangerWords}
      later={later}
      store={unfinished ? { ...store, unfinished: unfinished.log, dropped: unfinished.dropped } : store}
    />
  )
  // The development server serves the page without the start screen in it.
  if (place.firstChild) hydrate(app(), place)
  else render(app(), place)
  void takenUp.then(unfinished => {
    if (unfinished) render(app(unfinished), place)
  })
  if (import.meta.env.PROD)
    later
      .then(() => takenUp)
      .then(unfinished => keepOffline(unfinished !== undefined))
      // Without it the page works all the same, as long as there is a network.
      .catch(() => undefined)
}

setScheme()
const place = document.getElementById('app')
if (place) start(place)
