import type { CompiledProtocol, Question, Rule } from '../../../shared/compiled.ts'
import { rankOf } from '../../../shared/urgency.ts'
import { followUpLines } from './follow-up.ts'
import { conditionText, type Lookup, levelText, lookupOf } from './lookup.ts'

type Lines = readonly (string | false | undefined)[]

function kept(lines: Lines): string[] {
  return lines.filter(line => typeof line === 'string')
}

function questionLines(protocol: CompiledProtocol, lookup: Lookup, question: Question): string[] {
  const words = lookup.question(question.id)
  const range = question.range
  const unsure = kept([question.cannotTell && "can't tell", question.cannotMeasure && "can't measure now"])
  return kept([
    `### ${words?.ask ?? question.id}`,
    '',
    `\`${question.id}\` · ${question.kind} · stands ${question.staysGoodHours} hours`,
    words?.help !== undefined && `\n${words.help}`,
    '',
    question.gate && `- Asked only if: ${conditionText(protocol, lookup, question.gate)}`,
    range && `- From ${range.from} to ${range.to} ${range.unit}`,
    ...(words?.options ?? []).map(({ text, hint }, index) => {
      const sign = question.signs[index]
      const named = sign && sign !== question.options[index] ? ` (danger sign \`${sign}\`)` : ''
      return `- \`${question.options[index]}\` ${text}${hint === undefined ? '' : `. ${hint}`}${named}`
    }),
    unsure.length > 0 && `- Also offered: ${unsure.join(', ')}`,
    ...(words?.howTo ?? []).map(step => `- How: ${step}`),
    '',
  ])
}

function ruleLines(protocol: CompiledProtocol, lookup: Lookup, rule: Rule): string[] {
  const words = lookup.rule(rule.id)
  const { basisNames } = protocol.frame
  const rows = rule.evidence.map(id => `${id} (${protocol.evidence[id]?.sign ?? 'unknown'})`)
  const plans = kept([
    ...rule.care,
    rule.holding !== undefined && `${rule.holding} (until a vet sees it)`,
    rule.firstAid !== undefined && `${rule.firstAid} (first aid)`,
  ])
  const held = rule.origin === 'base' ? 'its concern was chosen' : undefined
  return kept([
    `#### ${rule.id}: ${levelText(rule.level)}`,
    '',
    words?.reason,
    '',
    `- When: ${held ?? (rule.when ? conditionText(protocol, lookup, rule.when) : 'always')}`,
    `- If unsure: ${levelText(rule.unsure)}`,
    `- Does the sign mean this: ${basisNames[rule.findingBasis]}`,
    `- How soon: ${basisNames[rule.urgencyBasis]}`,
    `- Evidence: ${rows.length > 0 ? rows.join('; ') : 'none'}`,
    words?.conflict !== undefined && `- Where sources disagree: ${words.conflict}`,
    plans.length > 0 && `- Care: ${plans.join(', ')}`,
    '',
  ])
}

function rulesPart(
  protocol: CompiledProtocol,
  lookup: Lookup,
  title: string,
  wanted: (rule: Rule) => boolean,
) {
  const rules = protocol.logic.rules.filter(wanted)
  rules.sort((one, other) => rankOf(other.level) - rankOf(one.level))
  return [`### ${title}`, '', ...rules.flatMap(rule => ruleLines(protocol, lookup, rule))]
}

function planLines(protocol: CompiledProtocol, lookup: Lookup): string[] {
  return protocol.logic.carePlans.flatMap(plan => {
    const words = lookup.carePlan(plan.id)
    return kept([
      `### ${words?.title ?? plan.id}`,
      '',
      `\`${plan.id}\` · ${plan.kind}`,
      words?.opening !== undefined && `\n${words.opening}`,
      '',
      ...plan.steps.map((step, index) => {
        const { onlyWhen, forbiddenWhen } = step
        const only = onlyWhen ? ` Only when: ${conditionText(protocol, lookup, onlyWhen)}.` : ''
        const not = forbiddenWhen ? ` Left out when: ${conditionText(protocol, lookup, forbiddenWhen)}.` : ''
        const waiting = step.whileWaiting ? ' Also while waiting for a vet.' : ''
        return `${index + 1}. ${words?.steps[index]?.text ?? step.id}${only}${not}${waiting}`
      }),
      '',
      ...plan.nevers.map((never, index) => {
        const only = never.onlyWhen ? ` When: ${conditionText(protocol, lookup, never.onlyWhen)}.` : ''
        return `- Never: ${words?.nevers[index]?.text ?? never.id}${only}`
      }),
      ...plan.lookAgain.map(({ hours, morning, day }, index) => {
        const when =
          hours !== undefined
            ? `after ${hours} hours`
            : morning !== undefined
              ? `morning ${morning}`
              : `day ${day}`
        return `- Look again, ${when}: ${words?.lookAgain[index] ?? ''}`
      }),
      ...(words?.getHelpIf ?? []).map(text => `- Get help if: ${text}`),
      ...followUpLines(protocol, lookup, plan.id),
      '',
    ])
  })
}

function sourceLines({ sources, evidence }: CompiledProtocol): string[] {
  return Object.entries(sources).map(([id, source]) => {
    const rows = Object.keys(evidence).filter(row => evidence[row]?.sources.includes(id))
    const parts = kept([
      source.by,
      source.title,
      source.publisher,
      source.year !== undefined && String(source.year),
      source.doi !== undefined && `doi:${source.doi}`,
      source.link,
    ])
    return `- \`${id}\` ${parts.join('. ')} (${source.class}, read: ${source.read}; rows: ${rows.join(', ')})`
  })
}

/** The whole protocol as a page for a reader: danger signs, questions, rules, care plans, sources. */
export function markdownOf(protocol: CompiledProtocol): string {
  const { logic, frame } = protocol
  const lookup = lookupOf(protocol)
  const questions = (wanted: (question: Question) => boolean) =>
    logic.questions.filter(wanted).flatMap(question => questionLines(protocol, lookup, question))
  const reviewed = frame.reviewedBy.length > 0 ? frame.reviewedBy.join(', ') : 'nobody yet'
  return [
    `# ${frame.name} (${frame.latin}), version ${frame.version}`,
    '',
    frame.trustLine,
    '',
    frame.notADiagnosis,
    '',
    `Reviewed by: ${reviewed}. Logic: ${logic.hash}.`,
    '',
    '## Danger signs',
    '',
    ...questions(({ phase }) => phase === 'danger'),
    ...rulesPart(protocol, lookup, 'Rules of the danger signs', ({ origin }) => origin === 'sign'),
    '## The concern',
    '',
    ...questions(({ phase }) => phase === 'concern'),
    ...frame.concerns.flatMap(concern => [
      `## ${concern.name}`,
      '',
      concern.hint,
      '',
      ...(concern.normal === undefined ? [] : [`What is normal: ${concern.normal}`, '']),
      ...questions(question => question.concern === concern.id),
      ...rulesPart(protocol, lookup, 'Rules', rule => rule.concern === concern.id),
    ]),
    '## Asked whatever the concern',
    '',
    ...questions(({ phase }) => phase === 'common'),
    ...rulesPart(protocol, lookup, 'General rules', ({ origin }) => origin === 'general'),
    '## Asked for first aid and for the page to the vet only',
    '',
    ...questions(({ phase }) => phase === 'care' || phase === 'handover'),
    '## Care plans',
    '',
    ...planLines(protocol, lookup),
    '## Sources',
    '',
    ...sourceLines(protocol),
    '',
  ].join('\n')
}
