import { fileURLToPath } from 'node:url'

/** What rolldown tells of a module while it parts the code. */
interface Graph {
  readonly getModuleInfo: (id: string) => { readonly importedIds: readonly string[] } | null
}

const path = (file: string) => fileURLToPath(new URL(`../../${file}`, import.meta.url))
const START = [path('app/main.tsx')]
const LATER = ['app/later-screens.tsx', 'records/rows.ts'].map(path)
const RECORD = [path('app/record/Record.tsx')]
const HOME = [path('app/enclosure/PutRight.tsx')]

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
 * Names the chunk of a module: all that is needed for the first screens is one file, all that leads to the outcome
 * after the first paint is another, and the keeper's record a third; a few large files compress better than many.
 * Everything else, desk work, is parted as rolldown sees fit.
 */
export function ownersChunks(): (id: string, graph: Graph) => string | null {
  let known: readonly (readonly [name: string, modules: Set<string>])[] | undefined
  return (id, graph) => {
    known ??= [
      ['start', closureOf(START, graph)],
      ['later', closureOf(LATER, graph)],
      ['record', closureOf(RECORD, graph)],
      // What an outcome says of the animal's home is fetched in its turn, behind the record.
      ['record-home', closureOf(HOME, graph)],
    ]
    if (id.includes('virtual:protocol/')) return null
    return known.find(([, modules]) => modules.has(id))?.[0] ?? null
  }
}

/** The file of a chunk, so that its name tells what it is: what the tool knows, what an owner loads, or desk work. */
export function chunkFileNames(chunk: {
  readonly name: string
  readonly facadeModuleId?: string | null | undefined
}): string {
  if (chunk.facadeModuleId?.includes('virtual:protocol/')) return 'assets/content-[name]-[hash].js'
  // The bundler's own helpers, of a few hundred bytes, it parts by itself.
  return /^(?:start|later|record|record-home|find-doors|rolldown-runtime|content-.*)$/.test(chunk.name)
    ? 'assets/[name]-[hash].js'
    : 'assets/desk-[name]-[hash].js'
}
