import type { Fact, Question } from '../../shared/compiled.ts'
import type { FindingSource, QuestionSource } from '../../shared/content.ts'
import type { ContentDocument, Path } from './documents.ts'
import type { ContentFault } from './fault.ts'
import type { ProtocolSource } from './source.ts'

/** A question as it was written, with its place in the protocol. */
export interface PlacedQuestion {
  readonly source: QuestionSource
  readonly phase: Question['phase']
  readonly concern?: string
  readonly document: ContentDocument
  readonly path: Path
}

/** A finding as it was written, with its place. */
export interface PlacedFinding {
  readonly source: FindingSource
  readonly document: ContentDocument
  readonly path: Path
}

/** More options than this do not fit the bit sets of the compiled conditions. */
const MOST_OPTIONS = 30

/** Every question in the order in which it is asked: danger, concern, each concern's, common, handover, care. */
export function questionsInOrder(source: ProtocolSource): PlacedQuestion[] {
  const { dangerSigns, species, questions, concerns } = source
  const danger = dangerSigns.value.screens.map(
    (screen, index): PlacedQuestion => ({
      phase: 'danger',
      document: dangerSigns.document,
      path: ['screens', index],
      source: {
        id: screen.id,
        kind: 'several',
        ask: screen.ask,
        cannotTell: true,
        staysGoodHours: screen.staysGoodHours,
        ...(screen.howTo ? { howTo: screen.howTo } : {}),
        options: dangerSigns.value.signs
          .filter(sign => sign.screen === screen.id)
          .map(sign => ({
            id: sign.id,
            text: sign.text,
            sign: sign.id,
            ...(sign.hint ? { hint: sign.hint } : {}),
          })),
      },
    }),
  )
  const chosen = species.value.concernQuestion
  const concern: PlacedQuestion = {
    phase: 'concern',
    document: species.document,
    path: ['concernQuestion'],
    source: {
      id: chosen.id,
      kind: 'several',
      ask: chosen.ask,
      ...(chosen.help ? { help: chosen.help } : {}),
      staysGoodHours: chosen.staysGoodHours,
      options: concerns.map(({ value }) => ({ id: value.id, text: value.name, hint: value.hint })),
    },
  }
  const own = concerns.flatMap(({ value, document }) =>
    value.questions.map(
      (question, index): PlacedQuestion => ({
        source: question,
        phase: 'concerns',
        concern: value.id,
        document,
        path: ['questions', index],
      }),
    ),
  )
  const shared = (['common', 'handover', 'care'] as const).flatMap(phase =>
    questions.value[phase].map(
      (question, index): PlacedQuestion => ({
        source: question,
        phase,
        document: questions.document,
        path: [phase, index],
      }),
    ),
  )
  return [...danger, concern, ...own, ...shared]
}

/** Every finding: the common ones and those of each concern. */
export function allFindings(source: ProtocolSource): PlacedFinding[] {
  const from = (list: readonly FindingSource[], document: ContentDocument) =>
    list.map((finding, index): PlacedFinding => ({ source: finding, document, path: ['findings', index] }))
  return [
    ...from(source.bands.value.findings, source.bands.document),
    ...source.concerns.flatMap(({ value, document }) => from(value.findings, document)),
  ]
}

function findingFact(
  placed: PlacedFinding,
  questions: readonly PlacedQuestion[],
  faults: ContentFault[],
): Fact | undefined {
  const { source, document, path } = placed
  const question = questions.findIndex(
    one => one.source.id === (source.computed === 'weightLoss' ? source.measuredBy : source.question),
  )
  const refuse = (key: string, message: string) => {
    faults.push(document.faultAt([...path, key], message))
    return undefined
  }
  const base = { id: source.id, ordered: source.worse !== 'none' }
  if (source.computed === 'season') {
    const hemisphere = questions.findIndex(one => one.source.id === source.hemisphere?.question)
    const south =
      questions[hemisphere]?.source.options?.findIndex(option => option.id === source.hemisphere?.south) ?? -1
    if (!source.months || south < 0)
      return refuse(
        'hemisphere',
        'season needs months, and a hemisphere question with an option for the south',
      )
    return {
      ...base,
      kind: 'season',
      options: source.months.map(({ id }) => id),
      months: source.months.map(({ months }) => months),
      hemisphere: { fact: hemisphere, south },
    }
  }
  if (question < 0)
    return refuse(
      'question',
      `given: ${source.question ?? source.measuredBy ?? 'nothing'}; accepted: the id of a question`,
    )
  if (source.computed === 'weightLoss') {
    if (!source.grid) return refuse('grid', 'weight loss needs a grid')
    return {
      ...base,
      kind: 'weight-loss',
      options: source.grid.map(({ id }) => id),
      measuredBy: question,
      grid: source.grid.map(({ atLeastPercent, withinDays }) => ({
        atLeastPercent,
        ...(withinDays === undefined ? {} : { withinDays }),
      })),
    }
  }
  const options = questions[question]?.source.options ?? []
  if (!source.bands) return refuse('bands', 'a finding from a question needs bands')
  return {
    ...base,
    kind: 'band',
    options: source.bands.map(({ id }) => id),
    question,
    unit: source.unit === 'days' || source.unit === 'hours' ? source.unit : 'other',
    worse: source.worse,
    bands: source.bands.map(({ from, below, option }, index) => {
      const at = option === undefined ? undefined : options.findIndex(({ id }) => id === option)
      if (at === -1)
        refuse('bands', `bands.${index}: option ${option} is not an option of ${source.question}`)
      return {
        ...(from === undefined ? {} : { from }),
        ...(below === undefined ? {} : { below }),
        ...(at === undefined ? {} : { option: at }),
      }
    }),
  }
}

/**
 * All facts: one per question at the question's own index, then the findings, then the danger signs.
 * Later code relies on that order: the fact of question i is fact i.
 */
export function factsOf(
  source: ProtocolSource,
  questions: readonly PlacedQuestion[],
  faults: ContentFault[],
): Fact[] {
  const ofQuestions = questions.map(({ source: question, document, path }, index): Fact => {
    const options = (question.options ?? []).map(({ id }) => id)
    if (options.length > MOST_OPTIONS)
      faults.push(
        document.faultAt(
          [...path, 'options'],
          `given: ${options.length} options; accepted: at most ${MOST_OPTIONS}`,
        ),
      )
    return {
      kind: 'question',
      id: question.id,
      options,
      question: index,
      ordered: question.kind === 'choice' && question.fact !== true,
    }
  })
  const ofFindings = allFindings(source).flatMap(finding => findingFact(finding, questions, faults) ?? [])
  const ofSigns = source.dangerSigns.value.signs.map((sign): Fact => {
    const naming = questions.flatMap(({ source: question }, fact) => {
      const options = (question.options ?? []).reduce(
        (bits, option, at) => (option.sign === sign.id ? bits | (1 << at) : bits),
        0,
      )
      return options === 0 ? [] : [{ fact, options, screen: question.id === sign.screen }]
    })
    const screen = naming.find(one => one.screen)
    if (!screen)
      faults.push(
        source.dangerSigns.document.faultAt(
          ['signs'],
          `${sign.id}: given: screen ${sign.screen}; accepted: the id of a screen`,
        ),
      )
    return {
      kind: 'sign',
      id: sign.id,
      options: [sign.id],
      ordered: false,
      screen: screen ? { fact: screen.fact, options: screen.options } : { fact: 0, options: 0 },
      lookNow: naming.filter(one => !one.screen).map(({ fact, options }) => ({ fact, options })),
    }
  })
  return [...ofQuestions, ...ofFindings, ...ofSigns]
}
