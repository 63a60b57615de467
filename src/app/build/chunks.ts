import { fileURLToPath } from 'node:url'

/** What rolldown tells of a module while it parts the code. */
interface Graph {
  readonly getModuleInfo: (id: string) => { readonly importedIds: readonly string[] } | null
}

const path = (file: string) => fileURLToPath(new URL(`../../${file}`, import.meta.url))
const START = [path('app/main.tsx')]
const LATER = ['app/later-screens.tsx', 'app/record/Record.tsx', 'records/rows.ts'].map(path)

/** The modules that these need in order to run, themselves among them. */
function closureOf(ids: readonly string[], graph: Graph): Set<string> {
  const found = new Set<string>()
  const open = [...ids]
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (found.has(id)) continue
    found.add(id)
    open.push(...(graph.getModuleInfo(id)?.importedIds ?? []))
  }
  return found
}

/**
 * Names the chunk of a module: all that is fetched after the first paint on the owner's way is one file, which
 * compresses better than several. Everything else is parted as rolldown sees fit: the first load, and desk work.
 */
export function ownersChunks(): (id: string, graph: Graph) => string | null {
  let known: { readonly start: Set<string>; readonly later: Set<string> } | undefined
  return (id, graph) => {
    known ??= { start: closureOf(START, graph), later: closureOf(LATER, graph) }
    return known.later.has(id) && !known.start.has(id) && !id.includes('virtual:protocol/') ? 'later' : null
  }
}
