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
 * Names the chunk of a module: all that is needed for the first screens is one file, all that is fetched after the
 * first paint on the owner's way is another; a few large files compress better than many. Everything else is parted as rolldown sees fit: the first load, and desk work.
 */
export function ownersChunks(): (id: string, graph: Graph) => string | null {
  let known: { readonly start: Set<string>; readonly later: Set<string> } | undefined
  return (id, graph) => {
    known ??= { start: closureOf(START, graph), later: closureOf(LATER, graph) }
    if (id.includes('virtual:protocol/')) return null
    // The page's own script stays a file by itself, so that the page names one.
    if (START.includes(id)) return null
    if (known.start.has(id)) return 'start'
    return known.later.has(id) ? 'later' : null
  }
}

/** The file of a chunk, so that its name tells what it is: what the tool knows, what an owner loads, or desk work. */
export function chunkFileNames(chunk: {
  readonly name: string
  readonly facadeModuleId?: string | null | undefined
}): string {
  if (chunk.facadeModuleId?.includes('virtual:protocol/')) return 'assets/content-[name]-[hash].js'
  // The bundler's own helpers, of a few hundred bytes, it parts by itself.
  return /^(?:start|later|rolldown-runtime|content-.*)$/.test(chunk.name)
    ? 'assets/[name]-[hash].js'
    : 'assets/desk-[name]-[hash].js'
}
