/**
 * What of a clinic's link and of the history stays while this tab is open, so that a reload loses nothing. It is gone
 * with the tab; a browser that refuses its store keeps it in memory alone.
 */
const CLINIC_KEY = 'duskcheck.clinic'
const HISTORY_KEY = 'duskcheck.history'

const memory = new Map<string, string>()

function read(key: string): string | undefined {
  try {
    return sessionStorage.getItem(key) ?? memory.get(key)
  } catch {
    return memory.get(key)
  }
}

function write(key: string, value: string): void {
  memory.set(key, value)
  try {
    sessionStorage.setItem(key, value)
  } catch {
    // It stays in memory.
  }
}

/** The data of the clinic's link that was opened in this tab. */
export const keptClinic = () => read(CLINIC_KEY)
export const keepClinic = (data: string) => write(CLINIC_KEY, data)

export type HistoryAnswers = Readonly<Record<string, string>>

/** The answers to history questions that belong to one case, named by when it began. */
export function keptHistory(caseName: string): HistoryAnswers {
  try {
    const kept: unknown = JSON.parse(read(HISTORY_KEY) ?? '{}')
    if (typeof kept !== 'object' || kept === null || Reflect.get(kept, 'caseName') !== caseName) return {}
    const answers: unknown = Reflect.get(kept, 'answers')
    if (typeof answers !== 'object' || answers === null) return {}
    return Object.fromEntries(
      Object.entries(answers).filter((entry): entry is [string, string] => typeof entry[1] === 'string'),
    )
  } catch {
    return {}
  }
}

export function keepHistory(caseName: string, answers: HistoryAnswers): void {
  write(HISTORY_KEY, JSON.stringify({ caseName, answers }))
}
