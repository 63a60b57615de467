import { createHash } from 'node:crypto'
import type { CarePlan, CompiledProtocol, Condition, Logic, Question, Rule } from '../../shared/compiled.ts'
import type { ConditionSource, RuleSource } from '../../shared/content.ts'
import type { Level, Urgency } from '../../shared/urgency.ts'
import { readCondition, type Vocabulary } from './conditions.ts'
import type { ContentDocument, Path } from './documents.ts'
import { allFindings, factsOf, type PlacedQuestion, questionsInOrder } from './facts.ts'
import type { ContentFault } from './fault.ts'
import { followUpsOf } from './follow-up.ts'
import type { ProtocolSource } from './source.ts'
import { evidenceWords, frameOf, sourceWords, wordsOf } from './words.ts'

/** A rule with the place it came from, for the cross-checks. */
export interface PlacedRule {
  readonly rule: Rule
  readonly document: ContentDocument
  readonly path: Path
}

/** The compiled protocol together with what the cross-checks need to name places. */
export interface Compilation {
  readonly protocol: CompiledProtocol
  readonly rules: readonly PlacedRule[]
  readonly questions: readonly PlacedQuestion[]
}

const ONE_LOWER: Readonly<Record<Urgency, Urgency>> = {
  now: 'day',
  day: 'week',
  week: 'home',
  home: 'home',
  well: 'well',
}

function vocabularyOf(source: ProtocolSource, facts: Logic['facts']): Vocabulary {
  const named = facts.flatMap((fact, index) => (fact.kind === 'sign' ? [] : [[fact.id, index] as const]))
  const signs = facts.flatMap((fact, index) => (fact.kind === 'sign' ? [[fact.id, index] as const] : []))
  return {
    facts,
    factIndex: new Map(named),
    signIndex: new Map(signs),
    terms: new Map(source.generalRules.value.terms.map(({ id, when }) => [id, when])),
  }
}

/** Compiles content that fits its schemas. Faults found on the way are added; the result is whole only without faults. */
export function compile(source: ProtocolSource, faults: ContentFault[]): Compilation {
  const { species } = source
  const placedQuestions = questionsInOrder(source)
  const facts = factsOf(source, placedQuestions, faults)
  const vocabulary = vocabularyOf(source, facts)
  const condition = (
    document: ContentDocument,
    path: Path,
    written: ConditionSource | undefined,
  ): Condition | undefined =>
    written === undefined
      ? undefined
      : readCondition(written, path, { vocabulary, document, faults, within: [] })

  const windows: Readonly<Record<Urgency, number | undefined>> = {
    now: 0,
    day: species.value.windows.dayHours,
    week: species.value.windows.weekHours,
    home: undefined,
    well: undefined,
  }
  const level = (urgency: Urgency, withinHours?: number): Level => {
    const hours = withinHours ?? windows[urgency]
    return hours === undefined ? { urgency } : { urgency, withinHours: hours }
  }
  const floor = (urgency: Urgency, written: RuleSource['whenUnsure']): Level => {
    if (written === undefined) return level(ONE_LOWER[urgency])
    return typeof written === 'string' ? level(written) : level(written.urgency, written.withinHours)
  }

  const questions = placedQuestions.map(
    ({ source: question, phase, concern, document, path }, fact): Question => {
      const gate = condition(document, [...path, 'onlyIf'], question.onlyIf)
      const ages = (question.options ?? []).map(option => option.fromAgeDays)
      return {
        id: question.id,
        kind: question.kind,
        phase,
        ...(concern === undefined ? {} : { concern }),
        fact,
        options: (question.options ?? []).map(({ id }) => id),
        signs: (question.options ?? []).map(({ sign }) => sign ?? null),
        ...(gate ? { gate } : {}),
        staysGoodHours: question.staysGoodHours,
        cannotTell: question.cannotTell ?? false,
        cannotMeasure: question.cannotMeasure ?? false,
        ...(question.fromHatchDate
          ? { fromAgeDays: ages.map(days => days ?? Number.POSITIVE_INFINITY).filter(Number.isFinite) }
          : {}),
        ...(question.from !== undefined && question.to !== undefined
          ? { range: { from: question.from, to: question.to, unit: question.unit ?? 'days' } }
          : {}),
        forHandover: question.forHandover ?? false,
      }
    },
  )

  const compiledRule = (
    written: RuleSource,
    origin: Rule['origin'],
    when: Condition | undefined,
    concern?: string,
  ): Rule => ({
    id: written.id,
    ...(concern === undefined ? {} : { concern }),
    origin,
    ...(when ? { when } : {}),
    level: level(written.urgency, written.withinHours),
    unsure: floor(written.urgency, written.whenUnsure),
    care: written.care,
    ...(written.holding === undefined ? {} : { holding: written.holding }),
    ...(written.firstAid === undefined ? {} : { firstAid: written.firstAid }),
    evidence: written.evidence,
    findingBasis: written.findingBasis,
    urgencyBasis: written.urgencyBasis,
  })

  const signRules = source.dangerSigns.value.signs.map((sign, index): PlacedRule => {
    const fact = vocabulary.signIndex.get(sign.id) ?? 0
    return {
      rule: compiledRule(sign, 'sign', { kind: 'atom', fact, options: 1 }),
      document: source.dangerSigns.document,
      path: ['signs', index],
    }
  })
  const generalRules = source.generalRules.value.rules.map((written, index): PlacedRule => {
    const { document } = source.generalRules
    return {
      rule: compiledRule(written, 'general', condition(document, ['rules', index, 'when'], written.when)),
      document,
      path: ['rules', index],
    }
  })
  const concernFact = placedQuestions.findIndex(({ phase }) => phase === 'concern')
  const concernRules = source.concerns.flatMap(({ value, document }, at): PlacedRule[] => [
    {
      rule: compiledRule(value.base, 'base', { kind: 'atom', fact: concernFact, options: 1 << at }, value.id),
      document,
      path: ['base'],
    },
    ...value.rules.map((written, index) => ({
      rule: compiledRule(
        written,
        'concern',
        condition(document, ['rules', index, 'when'], written.when),
        value.id,
      ),
      document,
      path: ['rules', index],
    })),
  ])
  const rules = [...signRules, ...generalRules, ...concernRules]

  const optional = (
    key: 'onlyWhen' | 'forbiddenWhen',
    document: ContentDocument,
    path: Path,
    written: ConditionSource | undefined,
  ) => {
    const read = condition(document, [...path, key], written)
    return read === undefined ? {} : { [key]: read }
  }
  const carePlans = source.carePlans.map(
    ({ value, document }): CarePlan => ({
      id: value.id,
      kind: value.kind,
      steps: value.steps.map(({ id, act, part, whileWaiting, onlyWhen, forbiddenWhen }, index) => ({
        id,
        act,
        part,
        whileWaiting,
        ...optional('onlyWhen', document, ['steps', index], onlyWhen),
        ...optional('forbiddenWhen', document, ['steps', index], forbiddenWhen),
      })),
      nevers: value.nevers.map(({ id, act, part, onlyWhen }, index) => ({
        id,
        ...(act ? { act } : {}),
        part,
        ...optional('onlyWhen', document, ['nevers', index], onlyWhen),
      })),
      lookAgain: value.lookAgain.map(({ hours, morning, day }) => ({
        ...(hours === undefined ? {} : { hours }),
        ...(morning === undefined ? {} : { morning }),
        ...(day === undefined ? {} : { day }),
      })),
    }),
  )

  const { basis: _basis, evidence: _evidence, ...weight } = species.value.weight
  const bare = {
    species: species.value.id,
    version: species.value.version,
    facts,
    questions,
    rules: rules.map(({ rule }) => rule),
    concerns: species.value.concerns,
    concernQuestion: concernFact,
    speciesQuestion: placedQuestions.findIndex(({ source: one }) => one.id === species.value.speciesQuestion),
    carePlans,
    treatedByVet: {
      when: readCondition(species.value.treatedByVet.when, ['treatedByVet', 'when'], {
        vocabulary,
        document: species.document,
        faults,
        within: [],
      }),
      keeps: species.value.treatedByVet.keeps,
    },
    opposites: species.value.opposites,
    clock: species.value.clock,
    weight,
  }
  const logic: Logic = {
    ...bare,
    hash: createHash('sha256').update(JSON.stringify(bare)).digest('hex').slice(0, 16),
  }
  const words = wordsOf(source, placedQuestions, allFindings(source))
  return {
    protocol: {
      logic,
      frame: frameOf(source),
      ...words,
      evidence: evidenceWords(source),
      sources: sourceWords(source),
      followUps: followUpsOf(source, { condition, level }),
    },
    rules,
    questions: placedQuestions,
  }
}
