import type { CompiledProtocol } from '../../../shared/compiled.ts'
import { BASES, SOURCE_CLASSES } from '../../../shared/content.ts'
import { URGENCIES } from '../../../shared/urgency.ts'

function countBy<Key extends string>(keys: readonly Key[], found: readonly string[]): Record<string, number> {
  return Object.fromEntries(keys.map(key => [key, found.filter(one => one === key).length]))
}

/** The counts of a protocol. `counts` are those of the content check, which alone knows what is left out. */
export function statsOf(protocol: CompiledProtocol, counts: Readonly<Record<string, number>>) {
  const { logic } = protocol
  const bases: readonly string[] = BASES
  const sources = Object.values(protocol.sources)
  return {
    species: logic.species,
    version: logic.version,
    hash: logic.hash,
    dangerSigns: logic.rules.filter(({ origin }) => origin === 'sign').length,
    concerns: logic.concerns.length,
    questions: logic.questions.length,
    rules: logic.rules.length,
    rulesByUrgency: countBy(
      [...URGENCIES].reverse(),
      logic.rules.map(({ level }) => level.urgency),
    ),
    rulesByFindingBasis: countBy(
      BASES,
      logic.rules.map(({ findingBasis }) => findingBasis),
    ),
    rulesByUrgencyBasis: countBy(
      BASES,
      logic.rules.map(({ urgencyBasis }) => urgencyBasis),
    ),
    rulesWithoutBasis: logic.rules.filter(
      ({ findingBasis, urgencyBasis }) => !bases.includes(findingBasis) || !bases.includes(urgencyBasis),
    ).length,
    carePlans: logic.carePlans.length,
    sources: sources.length,
    sourcesByClass: countBy(
      SOURCE_CLASSES,
      sources.map(source => source.class),
    ),
    evidenceRows: counts.evidenceRows ?? 0,
    evidenceRowsUsed: counts.evidenceRowsUsed ?? 0,
    evidenceRowsLeftOut: counts.evidenceRowsLeftOut ?? 0,
  }
}
