import { fileURLToPath } from 'node:url'
import { brotliCompressSync } from 'node:zlib'
import type { Plugin } from 'vite'
import type { CareOfLogic, CompiledProtocol, Logic, Rule } from '../../../shared/compiled.ts'
import type { CompiledEnclosure } from '../../../shared/enclosure.ts'
import { faultLine } from '../../protocol/fault.ts'
import { loadHandover } from '../../protocol/handover.ts'
import { loadProtocol } from '../../protocol/load.ts'
import { loadSearchWords } from '../../protocol/search-words.ts'
import { loadWeights } from '../../protocol/weights.ts'
import { firstContent, frameContent } from './first-content.ts'

const CONTENT = fileURLToPath(new URL('../../../content/', import.meta.url))
const SPECIES = 'leopard-gecko'

const PREFIX = 'virtual:protocol/'
/** Rollup's mark for a module that is no file. */
const RESOLVED = `\0${PREFIX}`

/** Thrown when the content has faults; its message lists every one with its place. */
export class ContentFaults extends Error {
  override readonly name = 'ContentFaults'
}

/** Reads and compiles the content, or throws every fault as `file:line:column message`. */
export function compileContent(): CompiledProtocol {
  return loadContent().compilation.protocol
}

function loadContent() {
  const loaded = loadProtocol(CONTENT, SPECIES)
  if (loaded.ok) return loaded
  const { length } = loaded.faults
  throw new ContentFaults(
    `The content has ${length} ${length === 1 ? 'fault' : 'faults'}:\n${loaded.faults.map(fault => `content/${faultLine(fault)}`).join('\n')}`,
  )
}

/** Reads what a clinic receives, or throws every fault. */
function handoverContent(protocol: CompiledProtocol) {
  const loaded = loadHandover(CONTENT, SPECIES, protocol)
  if (loaded.ok) return loaded.handover
  throw new ContentFaults(loaded.faults.map(fault => `content/${faultLine(fault)}`).join('\n'))
}

/** Reads how weight records are read, or throws every fault. */
function weightsContent(protocol: CompiledProtocol) {
  const loaded = loadWeights(CONTENT, SPECIES, protocol)
  if (loaded.ok) return loaded.weights
  throw new ContentFaults(loaded.faults.map(fault => `content/${faultLine(fault)}`).join('\n'))
}

/** Reads how owners say it, or throws every fault. */
function searchContent({ frame }: CompiledProtocol) {
  const loaded = loadSearchWords(CONTENT, SPECIES, frame)
  if (loaded.ok) return loaded.searchWords
  throw new ContentFaults(loaded.faults.map(fault => `content/${faultLine(fault)}`).join('\n'))
}

/**
 * Serves the compiled protocol of content/ as the modules that src/app/content/virtual.d.ts declares, stops the
 * build at any fault in the content, and reloads the page of the development server on an edit of it.
 */
export function protocolPlugin(): Plugin {
  let compiled: ReturnType<typeof loadContent> | undefined
  const content = () => {
    compiled ??= loadContent()
    return compiled
  }
  const source = (name: string) =>
    name === 'enclosure'
      ? enclosureSource(content().enclosure)
      : moduleSource(content().compilation.protocol, name)
  return {
    name: 'duskcheck-protocol',
    buildStart() {
      compiled = undefined
      this.addWatchFile(CONTENT)
      // The development server shows faults on the page, when it asks for the content.
      if (this.environment.mode !== 'build') return
      try {
        content()
      } catch (error) {
        this.error(error instanceof Error ? error.message : String(error))
      }
    },
    resolveId: id => (id.startsWith(PREFIX) ? `\0${id}` : undefined),
    load: id => (id.startsWith(RESOLVED) ? source(id.slice(RESOLVED.length)) : undefined),
    configureServer: server => {
      server.watcher.add(CONTENT)
      const onEdit = (file: string) => {
        if (!file.startsWith(CONTENT)) return
        compiled = undefined
        for (const { moduleGraph, hot } of Object.values(server.environments)) {
          for (const [id, module] of moduleGraph.idToModuleMap)
            if (id.startsWith(RESOLVED)) moduleGraph.invalidateModule(module)
          hot.send({ type: 'full-reload' })
        }
      }
      server.watcher.on('change', onEdit).on('add', onEdit).on('unlink', onEdit)
    },
  }
}

/** The check of enclosure and feeding stands in a module of its own: nothing of the triage loads it. */
function enclosureSource(enclosure: CompiledEnclosure | undefined): string | undefined {
  return enclosure && dataModule(enclosure)
}

/** The text of one virtual module, or undefined where there is none of that name. */
export function moduleSource(protocol: CompiledProtocol, name: string): string | undefined {
  switch (name) {
    case 'logic':
      return dataModule(withoutCare(protocol.logic))
    case 'care':
      return dataModule(careOf(protocol.logic))
    case 'first':
      return dataModule(firstContent(protocol))
    case 'frame':
      return dataModule(frameContent(protocol))
    case 'common':
      return dataModule(protocol.commonWords)
    case 'handover':
      return dataModule(handoverContent(protocol))
    case 'weights':
      return dataModule(weightsContent(protocol))
    case 'search':
      return dataModule(searchContent(protocol))
    case 'evidence':
      return dataModule(citedEvidence(protocol))
    case 'concerns':
      return concernsModule(Object.keys(protocol.concernWords))
    default: {
      const words = name.startsWith('concern/')
        ? protocol.concernWords[name.slice('concern/'.length)]
        : undefined
      return words && dataModule(words)
    }
  }
}

/** What deciding needs: rules without the plans they call for and the rows behind them. */
function withoutCare(logic: Logic): Logic {
  const rules = logic.rules.map(
    ({ care: _care, evidence: _evidence, holding: _holding, firstAid: _firstAid, ...rule }): Rule => ({
      ...rule,
      care: [],
      evidence: [],
    }),
  )
  return { ...logic, rules, carePlans: [] }
}

/** What the outcome needs besides, the rules' part in the order of the rules. */
function careOf({ rules, carePlans }: Logic): CareOfLogic {
  return {
    carePlans,
    rules: rules.map(({ care, evidence, holding, firstAid }) => ({
      care,
      evidence,
      ...(holding === undefined ? {} : { holding }),
      ...(firstAid === undefined ? {} : { firstAid }),
    })),
  }
}

/** One after the other, in the protocol's order: what the page fetches must not tell what was answered. */
function concernsModule(concerns: readonly string[]): string {
  const steps = concerns.map(
    id =>
      `  words[${JSON.stringify(id)}] = (await import(${JSON.stringify(`${PREFIX}concern/${id}`)})).default`,
  )
  return `export async function loadConcernWords() {\n  const words = {}\n${steps.join('\n')}\n  return words\n}\n`
}

/** The rows that rules cite and the sources that those rows cite: all that an outcome can show. */
function citedEvidence({
  logic,
  evidence,
  sources,
}: CompiledProtocol): Pick<CompiledProtocol, 'evidence' | 'sources'> {
  const rows = new Set(logic.rules.flatMap(rule => rule.evidence))
  const citedRows = Object.fromEntries(Object.entries(evidence).filter(([id]) => rows.has(id)))
  const cited = new Set(Object.values(citedRows).flatMap(row => row.sources))
  return {
    evidence: citedRows,
    sources: Object.fromEntries(Object.entries(sources).filter(([id]) => cited.has(id))),
  }
}

/** A module that exports `data`, written in whichever of two ways is smaller as hosts send it. */
function dataModule(data: unknown): string {
  const json = JSON.stringify(data)
  const ways = [
    `export default ${literal(data)}\n`,
    `export default JSON.parse('${json.replace(/[\\']/g, '\\$&')}')\n`,
  ]
  const size = (text: string) => brotliCompressSync(text).byteLength
  const [first = '', ...others] = ways
  return others.reduce((best, way) => (size(way) < size(best) ? way : best), first)
}

/** JSON as a JavaScript literal: names without quotes where the language allows it. */
function literal(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(literal).join()}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  const fields = Object.entries(value).flatMap(([name, field]) =>
    field === undefined
      ? []
      : [`${/^[A-Za-z_$][\w$]*$/.test(name) ? name : JSON.stringify(name)}:${literal(field)}`],
  )
  return `{${fields.join()}}`
}
