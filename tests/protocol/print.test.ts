import { describe, expect, it } from 'vitest'
import { loadProtocol } from '../../src/protocol/load.ts'
import { markdownOf } from '../../src/protocol/print/markdown.ts'
import { mermaidOf } from '../../src/protocol/print/mermaid.ts'
import { DUNE_SKINK, INVENTED } from './invented.ts'

const loaded = loadProtocol(INVENTED, DUNE_SKINK)
if (!loaded.ok) throw new Error('the invented content has faults')
const { protocol } = loaded.compilation

describe('the protocol as a page', () => {
  const page = markdownOf(protocol)

  it('says every rule in plain words, with urgency, bases, evidence, conflict and care', () => {
    expect(page).toContain(
      [
        '#### fading-both: week, within 168 hours',
        '',
        'Back and belly have faded for a week.',
        '',
        '- When: Where do the scales fade? “On the back”, and Days since the scales faded: “A week or more”',
        '- If unsure: home',
        '- Does the sign mean this: From a source',
        '- How soon: Our judgement',
        '- Evidence: row-S1 (Scales that fade)',
        '- Where sources disagree: One page waits longer. We take the sooner.',
        '- Care: home-sand',
      ].join('\n'),
    )
    for (const { id } of protocol.logic.rules) expect(page).toContain(`#### ${id}: `)
  })

  it('names every question, care plan and source', () => {
    for (const { id } of protocol.logic.questions) expect(page).toContain(`\`${id}\` · `)
    for (const { id, kind } of protocol.logic.carePlans) expect(page).toContain(`\`${id}\` · ${kind}`)
    for (const id of Object.keys(protocol.sources)) expect(page).toContain(`- \`${id}\` `)
  })

  it('says when a step is left out, and when to look again', () => {
    expect(page).toContain('2. Sieve the sand. Left out when: danger sign “It sinks and does not come up”.')
    expect(page).toContain('- Look again, morning 1: Are the scales paler?')
  })
})

describe('the chart as a drawing', () => {
  const drawing = mermaidOf(protocol)

  it('has every question once, with a by-pass', () => {
    protocol.logic.questions.forEach((_, index) => {
      expect(drawing.split(`    q${index}[`)).toHaveLength(2)
    })
    expect(drawing.split('-.->|cannot matter|')).toHaveLength(protocol.logic.questions.length + 1)
  })

  it('leads from each phase to the next, and from each to the outcome', () => {
    expect(drawing).toContain('danger_2 --> chosen_0')
    expect(drawing).toContain('concern1_2 --> common_0')
    expect(drawing).toContain('common_4 --> outcome')
    expect(drawing).toContain('danger ==>|danger sign at now, or settled| outcome')
  })

  it('leaves no bare double quote inside a label', () => {
    const quoted = {
      ...protocol,
      frame: { ...protocol.frame, concerns: [{ id: 'fading', name: 'A "dune"', hint: '' }] },
    }
    expect(mermaidOf(quoted)).toContain('["A #quot;dune#quot;"]')
  })
})
