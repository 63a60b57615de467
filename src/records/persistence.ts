/** Whether the browser has promised to keep the data when room gets short. */
export type KeepPromise =
  | 'persisted'
  /** It was asked and gave no promise: it may clear the data by itself. */
  | 'not-promised'
  /** Not asked yet, or this browser knows no such promise. */
  | 'unknown'

/** What the browser has promised already; asks nothing. */
export async function promised(): Promise<KeepPromise> {
  try {
    return (await navigator.storage.persisted()) ? 'persisted' : 'unknown'
  } catch {
    return 'unknown'
  }
}

/** Asks the browser to keep the data. Some browsers then ask the person, so the answer may take long. */
export async function askToKeep(): Promise<KeepPromise> {
  try {
    if ((await promised()) === 'persisted') return 'persisted'
    return (await navigator.storage.persist()) ? 'persisted' : 'not-promised'
  } catch {
    return 'unknown'
  }
}
