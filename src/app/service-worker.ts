/**
 * Keeps the files of one build so that the page opens without a network after one visit. A newer build is fetched
 * beside the old one and takes over when no page is open, or when the page says that no case is under way.
 */

/** Put in by the build (src/app/build/offline-plugin.ts): every file of it, and a hash over them. */
declare const BUILD_FILES: readonly string[]
declare const BUILD_VERSION: string

/** The little of a service worker's scope that is used here; the DOM's types do not have it. */
interface Waitable extends Event {
  waitUntil(work: Promise<unknown>): void
}
interface Fetched extends Event {
  readonly request: Request
  respondWith(response: Promise<Response>): void
}
interface Scope {
  addEventListener(kind: 'install' | 'activate', listener: (event: Waitable) => void): void
  addEventListener(kind: 'fetch', listener: (event: Fetched) => void): void
  addEventListener(kind: 'message', listener: (event: MessageEvent<unknown>) => void): void
  skipWaiting(): Promise<void>
}
function isScope(scope: object): scope is Scope {
  return 'skipWaiting' in scope && 'addEventListener' in scope
}
const scope: object = globalThis
if (!isScope(scope)) throw new Error('This script runs as a service worker only.')

const PREFIX = 'duskcheck-'
const CACHE = `${PREFIX}${BUILD_VERSION}`

scope.addEventListener('install', event => {
  // Past the browser's own cache, so that no file of an older build comes in.
  const files = BUILD_FILES.map(file => new Request(file, { cache: 'no-cache' }))
  event.waitUntil(caches.open(CACHE).then(cache => cache.addAll(files)))
})

scope.addEventListener('activate', event => {
  // The build before stays: a tab that opened with it may still ask for its files, and the host has them no more.
  const dropOld = async () => {
    const others = (await caches.keys()).filter(name => name.startsWith(PREFIX) && name !== CACHE)
    for (const name of others.slice(0, -1)) await caches.delete(name)
  }
  event.waitUntil(dropOld())
})

scope.addEventListener('message', event => {
  if (event.data === 'take-over') void scope.skipWaiting()
})

scope.addEventListener('fetch', event => {
  const { request } = event
  if (request.method !== 'GET' || new URL(request.url).origin !== location.origin) return
  const how = { ignoreSearch: true, ignoreVary: true }
  const answer = async () => {
    const cache = await caches.open(CACHE)
    if (request.mode === 'navigate') return (await cache.match('./', how)) ?? fetch(request)
    return (await cache.match(request, how)) ?? (await caches.match(request, how)) ?? fetch(request)
  }
  event.respondWith(answer())
})
