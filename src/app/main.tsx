import first from 'virtual:protocol/first'
import { hydrate, render } from 'preact'
import { openStore } from '../records/store.ts'
import { caseUnderWay, type Earlier } from '../records/under-way.ts'
import { App } from './App.tsx'
import { loadClinic, loadLater, loadRecord, loadRest, loadSearch } from './content/later.ts'
import { readDoors } from './doors.ts'

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
  const { part } = first
  const store = caseUnderWay(openStore(), part, [part.concernQuestion, part.thisAnimal?.question ?? ''])
  // Everything else is fetched after the first paint, each time in the same order.
  const rest = firstPaint().then(loadRest)
  const search = rest.then(loadSearch)
  // A search that does not come keeps nothing else back.
  const later = search.catch(() => rest).then(loadLater)
  const record = later.then(loadRecord)
  // One after the other, so that the order is the same each time.
  const clinic = record.then(({ home }) => home.catch(() => undefined)).then(loadClinic)
  const takenUp = rest.then(({ logic }) => store.takeUp(logic)).catch(() => undefined)
  const doors = readDoors(place)
  const app = (earlier?: Earlier) => (
    <App
      first={first}
      doors={doors}
      rest={rest}
      later={later}
      search={search}
      record={record}
      clinic={clinic}
      store={earlier ? { ...store, earlier } : store}
    />
  )
  hydrate(app(), place)
  void takenUp.then(earlier => {
    if (earlier) render(app(earlier), place)
  })
  if (import.meta.env.PROD)
    clinic
      .then(() => takenUp)
      .then(earlier => keepOffline(earlier !== undefined && earlier.outcomeAt === undefined))
      // Without it the page works all the same, as long as there is a network.
      .catch(() => undefined)
}

setScheme()
const place = document.getElementById('app')
if (place) start(place)
