import type { Condition } from '../../../shared/compiled.ts'
import type { ConditionSource } from '../../../shared/content.ts'
import type { CompiledEnclosure, EnclosureFact, EnclosureItem } from '../../../shared/enclosure.ts'
import type { EnclosureSource, FeedersSource } from '../../../shared/enclosure-content.ts'
import { readCondition, type Vocabulary } from '../conditions.ts'
import type { Path } from '../documents.ts'
import type { ContentFault } from '../fault.ts'
import type { ProtocolSource } from '../source.ts'
import { evidenceWords, sourceWords } from '../words.ts'
import { CITING } from './claims.ts'

function factsOf({ items, findings }: EnclosureSource): EnclosureFact[] {
  const ofItems = items.map(
    (item, index): EnclosureFact => ({
      id: item.id,
      name: item.ask,
      options: (item.options ?? []).map(({ id }) => id),
      ordered: item.kind === 'choice' && item.fact !== true,
      item: index,
      texts: (item.options ?? []).map(({ text }) => text),
    }),
  )
  const ofFindings = findings.map(
    (finding): EnclosureFact => ({
      id: finding.id,
      name: finding.name,
      options: finding.bands.map(({ id }) => id),
      ordered: true,
      of: finding.of,
      texts: finding.bands.map(({ text }) => text),
      bands: finding.bands.map(({ from, below }) => ({
        ...(from === undefined ? {} : { from }),
        ...(below === undefined ? {} : { below }),
      })),
    }),
  )
  return [...ofItems, ...ofFindings]
}

function citedBy(home: EnclosureSource, feeders: FeedersSource): { rows: Set<string>; sources: Set<string> } {
  const rows = new Set<string>()
  const sources = new Set<string>()
  const visit = (value: unknown, key: string): void => {
    if (Array.isArray(value)) for (const one of value) visit(one, key)
    else if (typeof value === 'object' && value !== null)
      for (const [name, one] of Object.entries(value)) visit(one, name)
    else if (typeof value === 'string') {
      if (key === 'evidence') rows.add(value)
      if (CITING.has(key)) sources.add(value)
    }
  }
  visit(home, '')
  visit(feeders, '')
  return { rows, sources }
}

/** Compiles enclosure.yaml and feeders.yaml; undefined where the species has none. Faults found are added. */
export function compileEnclosure(
  source: ProtocolSource,
  faults: ContentFault[],
): CompiledEnclosure | undefined {
  if (!source.enclosure) return undefined
  const { value: home, document } = source.enclosure.home
  const feeders = source.enclosure.feeders.value
  const facts = factsOf(home)
  const vocabulary: Vocabulary = {
    facts,
    factIndex: new Map(facts.map(({ id }, index) => [id, index])),
    signIndex: new Map(),
    terms: new Map(),
  }
  const condition = (written: ConditionSource, path: Path): Condition =>
    readCondition(written, path, { vocabulary, document, faults, within: [] })
  const items = home.items.map((item, at): EnclosureItem => {
    const { id, group, kind, ask, help, howTo, findOut, noneText, unit, presets } = item
    return {
      id,
      group,
      kind,
      ask,
      help,
      howTo: howTo ?? [],
      findOut,
      options: (item.options ?? []).map(option => ({ id: option.id, text: option.text })),
      noneText,
      unit,
      ...(item.from !== undefined && item.to !== undefined
        ? { range: { from: item.from, to: item.to } }
        : {}),
      presets,
      ...(item.onlyIf ? { onlyIf: condition(item.onlyIf, ['items', at, 'onlyIf']) } : {}),
      forHandover: item.forHandover ?? false,
    }
  })
  const cited = citedBy(home, feeders)
  const evidence = Object.fromEntries(
    Object.entries(evidenceWords(source)).filter(([id]) => cited.rows.has(id)),
  )
  for (const row of Object.values(evidence)) for (const one of row.sources) cited.sources.add(one)
  const { evidence: _lightRows, ...light } = home.light
  const { evidence: _feedingRows, ...feeding } = feeders
  return {
    species: source.species.value.id,
    version: source.species.value.version,
    groups: home.groups,
    items,
    facts,
    quantities: home.quantities,
    instruments: home.instruments,
    instrumentSays: home.instrumentSays,
    faults: home.faults.map(({ when, fix, recheck, ...fault }, at) => ({
      ...fault,
      when: condition(when, ['faults', at, 'when']),
      steps: fix.steps,
      cautions: fix.cautions,
      // The check of the content refuses a fault without one.
      recheck: recheck ?? { look: '', hours: 0 },
    })),
    cautions: home.cautions,
    roles: home.roles,
    light,
    logger: home.logger,
    feeding,
    evidence,
    sources: Object.fromEntries(Object.entries(sourceWords(source)).filter(([id]) => cited.sources.has(id))),
  }
}
