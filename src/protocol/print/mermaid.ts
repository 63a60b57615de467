import type { CompiledProtocol } from '../../../shared/compiled.ts'
import { type Lookup, lookupOf } from './lookup.ts'

interface Phase {
  readonly id: string
  readonly title: string
  /** Indexes of its questions, in the order in which they are asked. */
  readonly questions: readonly number[]
}

function phasesOf({ logic, frame }: CompiledProtocol): Phase[] {
  const asked = (wanted: (index: number) => boolean) =>
    logic.questions.flatMap((_, index) => (wanted(index) ? [index] : []))
  const of = (phase: string) => asked(index => logic.questions[index]?.phase === phase)
  return [
    { id: 'danger', title: 'Danger signs', questions: of('danger') },
    { id: 'chosen', title: 'What worries you', questions: of('concern') },
    ...logic.concerns.map((concern, at) => ({
      id: `concern${at}`,
      title: frame.concerns.find(({ id }) => id === concern)?.name ?? concern,
      questions: asked(index => logic.questions[index]?.concern === concern),
    })),
    { id: 'common', title: 'Asked of all', questions: of('common') },
  ].filter(({ questions }) => questions.length > 0)
}

function label(text: string): string {
  return `"${text.replaceAll('"', '#quot;')}"`
}

/** One phase: a line of questions, each with a by-pass from the point before it to the point after it. */
function phaseLines(protocol: CompiledProtocol, lookup: Lookup, phase: Phase): string[] {
  const point = (at: number) => `${phase.id}_${at}`
  const line = phase.questions.flatMap((index, at) => {
    const question = protocol.logic.questions[index]
    const ask = lookup.question(question?.id ?? '')?.ask ?? question?.id ?? ''
    return [
      `    q${index}[${label(ask)}]`,
      `    ${point(at)} --> q${index} -->|answer| ${point(at + 1)}`,
      `    ${point(at)} -.->|cannot matter| ${point(at + 1)}`,
    ]
  })
  const points = [...phase.questions, -1].map((_, at) => `    ${point(at)}(( ))`)
  return [`  subgraph ${phase.id} [${label(phase.title)}]`, ...points, ...line, '  end']
}

/** The chart as a Mermaid drawing: a line with by-passes in each phase, and what leaves a phase early. */
export function mermaidOf(protocol: CompiledProtocol): string {
  const lookup = lookupOf(protocol)
  const phases = phasesOf(protocol)
  const after = protocol.logic.questions.flatMap(({ phase }, index) =>
    phase === 'handover' || phase === 'care' ? [index] : [],
  )
  const later: Phase[] =
    after.length > 0
      ? [{ id: 'after', title: 'After the outcome, each may be skipped', questions: after }]
      : []
  const between = phases.map((phase, at) => {
    const next = phases[at + 1]
    const end = `${phase.id}_${phase.questions.length}`
    return next ? `  ${end} --> ${next.id}_0` : `  ${end} --> outcome`
  })
  return [
    'flowchart TD',
    ...[...phases, ...later].flatMap(phase => phaseLines(protocol, lookup, phase)),
    '  outcome([Outcome])',
    ...between,
    ...phases.map(({ id }) => `  ${id} ==>|danger sign at now, or settled| outcome`),
    ...later.map(({ id }) => `  outcome -.-> ${id}_0`),
    '',
  ].join('\n')
}
