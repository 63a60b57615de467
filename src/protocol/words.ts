import type {
  CarePlanWords,
  EvidenceWords,
  Frame,
  QuestionWords,
  RuleWords,
  SourceWords,
  Words,
} from '../../shared/compiled.ts'
import type { CarePlanSource, FindingSource, QuestionSource, RuleSource } from '../../shared/content.ts'
import type { PlacedFinding, PlacedQuestion } from './facts.ts'
import type { ProtocolSource } from './source.ts'

function questionWords(question: QuestionSource): QuestionWords {
  return {
    ask: question.ask,
    ...(question.help === undefined ? {} : { help: question.help }),
    ...(question.howTo === undefined ? {} : { howTo: question.howTo }),
    ...(question.noneText === undefined ? {} : { noneText: question.noneText }),
    ...(question.picture === undefined ? {} : { picture: question.picture }),
    options: (question.options ?? []).map(({ text, hint }) =>
      hint === undefined ? { text } : { text, hint },
    ),
    ...(question.presets === undefined ? {} : { presets: question.presets }),
  }
}

function ruleWords(rule: Pick<RuleSource, 'reason' | 'conflict'>): RuleWords {
  return rule.conflict === undefined
    ? { reason: rule.reason }
    : { reason: rule.reason, conflict: rule.conflict }
}

function carePlanWords(plan: CarePlanSource): CarePlanWords {
  return {
    title: plan.title,
    ...(plan.opening === undefined ? {} : { opening: plan.opening }),
    steps: plan.steps.map(({ text, forbiddenBecause }) =>
      forbiddenBecause === undefined ? { text } : { text, forbiddenBecause },
    ),
    nevers: plan.nevers.map(({ text }) => ({ text })),
    lookAgain: plan.lookAgain.map(({ look }) => look),
    getHelpIf: plan.getHelpIf,
  }
}

function findingWords(finding: FindingSource): Words['findings'][string] {
  const bands = (finding.bands ?? finding.grid ?? finding.months ?? []).map(({ text }) => text)
  return finding.findOut === undefined
    ? { name: finding.name, bands }
    : { name: finding.name, bands, findOut: finding.findOut }
}

function keyed<Source extends { id: string }, Value>(
  list: readonly Source[],
  words: (one: Source) => Value,
): Record<string, Value> {
  return Object.fromEntries(list.map(one => [one.id, words(one)]))
}

/** The words of the protocol, apart per phase and concern, so that the first screens need only their own. */
export function wordsOf(
  source: ProtocolSource,
  questions: readonly PlacedQuestion[],
  findings: readonly PlacedFinding[],
): { dangerWords: Words; commonWords: Words; concernWords: Record<string, Words> } {
  const asked = (wanted: (question: PlacedQuestion) => boolean) =>
    keyed(
      questions.filter(wanted).map(one => one.source),
      questionWords,
    )
  const plans = source.carePlans.map(({ value }) => value)
  const ofConcern = (id: string) => {
    const concern = source.concerns.find(({ value }) => value.id === id)?.value
    return [...(concern?.rules ?? []), ...(concern ? [concern.base] : [])].flatMap(rule => [
      ...rule.care,
      ...(rule.holding ? [rule.holding] : []),
      ...(rule.firstAid ? [rule.firstAid] : []),
    ])
  }
  const sharedPlans = new Set(
    [...source.dangerSigns.value.signs, ...source.generalRules.value.rules].flatMap(rule => [
      ...rule.care,
      ...(rule.holding ? [rule.holding] : []),
      ...(rule.firstAid ? [rule.firstAid] : []),
    ]),
  )
  const planOwner = (plan: CarePlanSource): string | undefined => {
    const owners = source.concerns
      .filter(({ value }) => ofConcern(value.id).includes(plan.id))
      .map(({ value }) => value.id)
    return !sharedPlans.has(plan.id) && owners.length === 1 ? owners[0] : undefined
  }
  const commonFindings = new Set(source.bands.value.findings.map(({ id }) => id))
  return {
    dangerWords: {
      questions: asked(({ phase }) => phase === 'danger' || phase === 'concern'),
      rules: keyed(source.dangerSigns.value.signs, ruleWords),
      carePlans: {},
      findings: {},
    },
    commonWords: {
      questions: asked(({ phase }) => phase === 'common' || phase === 'handover' || phase === 'care'),
      rules: keyed(source.generalRules.value.rules, ruleWords),
      carePlans: keyed(
        plans.filter(plan => planOwner(plan) === undefined),
        carePlanWords,
      ),
      findings: keyed(
        findings.map(one => one.source).filter(({ id }) => commonFindings.has(id)),
        findingWords,
      ),
    },
    concernWords: Object.fromEntries(
      source.concerns.map(({ value }) => [
        value.id,
        {
          questions: asked(({ concern }) => concern === value.id),
          rules: keyed([value.base, ...value.rules], ruleWords),
          carePlans: keyed(
            plans.filter(plan => planOwner(plan) === value.id),
            carePlanWords,
          ),
          findings: keyed(value.findings, findingWords),
        },
      ]),
    ),
  }
}

/** What is said about the species, the doors and the concerns. */
export function frameOf(source: ProtocolSource): Frame {
  const { species, dangerSigns, concerns, words } = source
  const { taughtWords: _taughtWords, ...shown } = words.value
  return {
    name: species.value.name,
    latin: species.value.latin,
    version: species.value.version,
    reviewedBy: species.value.reviewedBy,
    treatedByVet: species.value.treatedByVet.because,
    doors: dangerSigns.value.screens.map(({ id, door, doorHint }) =>
      doorHint === undefined ? { screen: id, door } : { screen: id, door, doorHint },
    ),
    concerns: concerns.map(({ value }) => ({
      id: value.id,
      name: value.name,
      hint: value.hint,
      ...(value.normal ? { normal: value.normal.text } : {}),
    })),
    ...shown,
  }
}

/** Every evidence row by id, with what it says and its sources. */
export function evidenceWords(source: ProtocolSource): Record<string, EvidenceWords> {
  return keyed(source.evidence.value, ({ sign, sources }) => ({ sign, sources }))
}

/** Every source by id. */
export function sourceWords(source: ProtocolSource): Record<string, SourceWords> {
  return Object.fromEntries(
    source.sources.value.map(({ id, title, by, publisher, year, doi, link, class: kind, read }) => [
      id,
      {
        title,
        ...(by === undefined ? {} : { by }),
        ...(publisher === undefined ? {} : { publisher }),
        ...(year === undefined ? {} : { year }),
        ...(doi === undefined ? {} : { doi }),
        ...(link === undefined ? {} : { link }),
        class: kind,
        read,
      },
    ]),
  )
}
