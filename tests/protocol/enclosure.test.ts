import { describe, expect, it } from 'vitest'
import { checkEnclosure } from '../../src/enclosure/check.ts'
import { readEnclosureCase } from '../../src/enclosure/read-input.ts'
import { loadProtocol } from '../../src/protocol/load.ts'
import { type Change, DUNE_SKINK, faultsAfter, INVENTED } from './invented.ts'

const HOME = 'dune-skink/enclosure.yaml'
const FEEDERS = 'dune-skink/feeders.yaml'

// Each line breaks one thing in the invented content and names the very faults that must come of it.
const CASES: readonly [name: string, changes: readonly Change[], faults: readonly (string | RegExp)[]][] = [
  [
    'bands with a gap',
    [[HOME, 'text: "Sand below 30 °C", below: 30', 'text: "Sand below 29 °C", below: 29']],
    [
      /^dune-skink\/enclosure\.yaml:\d+:\d+ sand-cold: band sand-warm: gap from 29 to 30; accepted: bands that tile/,
    ],
  ],
  [
    'a mildest band that leaves out part of the range used',
    [[HOME, 'used: { low: 30, high: 40', 'used: { low: 28, high: 40']],
    [
      /^dune-skink\/enclosure\.yaml:\d+:\d+ sand-cold: band sand-warm leaves out 28; accepted: a mildest band/,
    ],
  ],
  [
    'a finding of a number that nobody computes',
    [[HOME, 'of: gradient', 'of: starlight']],
    [
      /no-shadow: of: given: starlight; accepted: an amount item, or gradient/,
      /shadow-warmth: no fault uses it/,
    ],
  ],
  [
    'a fault without a step',
    [
      [
        HOME,
        'steps: [{ id: plant-shadow, text: Plant a shadow., act: cover, basis: common-practice }]',
        'steps: []',
      ],
    ],
    [/shadowless: fix: given: no step; accepted: at least one step/],
  ],
  [
    'a fault without a caution',
    [[HOME, '      cautions: [gloves]\n', '      cautions: []\n']],
    [/shadowless: cautions: given: none; accepted: at least one/],
  ],
  [
    'a step that touches heat without the cautions for heat',
    [[HOME, 'cautions: [hot-sand, gloves]\n    recheck', 'cautions: [gloves]\n    recheck']],
    [/cold-sand: step warm-sand touches heat; accepted: cautions hot-sand too/],
  ],
  [
    'a caution that is none',
    [[HOME, '      cautions: [gloves]\n', '      cautions: [gloves, shout]\n']],
    [/shadowless: caution: given: shout; accepted: hot-sand, gloves/],
  ],
  [
    'a fault without a recheck',
    [[HOME, '    recheck: { look: Is there a shadow?, hours: 24 }\n', '']],
    [/shadowless: recheck: given: none; accepted: what to look at again/],
  ],
  [
    'a cause that is no concern',
    [[HOME, 'causes: [humming, fading]', 'causes: [humming, sneezing]']],
    [/shadowless: causes: given: sneezing; accepted: fading, humming|accepted: humming, fading/],
  ],
  [
    'an item that no fault uses',
    [
      [
        HOME,
        'id: fog, group: sand, kind: amount, ask: How foggy is it?, findOut: Look., unit: percent, from: 0, to: 100, staysGoodHours: 24, forHandover: true',
        'id: fog, group: sand, kind: amount, ask: How foggy is it?, findOut: Look., unit: percent, from: 0, to: 100, staysGoodHours: 24',
      ],
    ],
    [/fog: no fault uses it; accepted: an item that a fault uses, or forHandover/],
  ],
  [
    'a condition over an option that is not there',
    [[HOME, 'when: { no-shadow: shadow-gone }', 'when: { no-shadow: shadow-lost }']],
    [
      /no-shadow: given: shadow-lost; accepted: shadow-there, shadow-gone/,
      /shadow-warmth: no fault uses it/,
      /no-shadow: no fault names it/,
    ],
  ],
  [
    'a condition over what is no item',
    [[HOME, 'when: { no-shadow: shadow-gone }', 'when: { starlight: dim }']],
    [
      /starlight: not a question, finding, sign or term/,
      /shadow-warmth: no fault uses it/,
      /no-shadow: no fault names it/,
    ],
  ],
  [
    'a source that does not exist',
    [[HOME, 'source: src-handbook, low: 30', 'source: src-rumour, low: 30']],
    [/source: given: src-rumour; accepted: an id of sources\.yaml/],
  ],
  [
    'a source of the feeders that does not exist',
    [[FEEDERS, 'kilocaloriesPerGram: 1, source: src-handbook', 'kilocaloriesPerGram: 1, source: src-rumour']],
    [/^dune-skink\/feeders\.yaml:\d+:\d+ source: given: src-rumour; accepted: an id of sources\.yaml/],
  ],
  [
    'an evidence row that does not exist',
    [
      [
        HOME,
        'recheck: { look: Is the sand warm?, hours: 4 }\n    basis: project-judgement\n    evidence: [row-S1]',
        'recheck: { look: Is the sand warm?, hours: 4 }\n    basis: common-practice\n    evidence: [row-S9]',
      ],
    ],
    [/evidence: given: row-S9; accepted: a row of evidence\.yaml/],
  ],
  [
    'a claim to be published without a row',
    [[HOME, 'act: cover, basis: common-practice', 'act: cover, basis: published']],
    [/shadowless plant-shadow: basis: given: published with no evidence/],
  ],
  [
    'an item that differs from the question of the same name',
    [
      [HOME, 'id: skink-age, group: sand', 'id: which-skink, group: sand'],
      [HOME, 'age: skink-age', 'age: which-skink'],
    ],
    [/which-skink: differs from the question of that name; accepted: the same kind, unit, range and options/],
  ],
  [
    'a role that names no item',
    [[HOME, 'uvIndex: glow', 'uvIndex: gloom']],
    [/uvIndex: given: gloom; accepted: the id of an item/],
  ],
  [
    'a word of another kind than the schema has',
    [[HOME, 'plotBuckets: 50', 'plotBuckets: many']],
    [/logger\.policy\.plotBuckets: given: many; accepted:/],
  ],
  [
    'a sentence too long for the night',
    [[HOME, 'reason: There is no shadow.', `reason: ${'long '.repeat(19)}`]],
    [/sentence of 19 words/],
  ],
  [
    'feeders.yaml missing its food',
    [[FEEDERS, 'preySize: { says: Small., basis: common-practice }\n', '']],
    [/preySize: missing/],
  ],
]

describe('faults in the content of an enclosure check', () => {
  it('the invented one has none', () => {
    expect(faultsAfter()).toEqual([])
  })

  it.each(CASES)('%s', (_name, changes, faults) => {
    const found = faultsAfter(...changes)
    expect(found).toHaveLength(faults.length)
    for (const [at, fault] of faults.entries()) expect(found[at]).toMatch(fault)
    for (const line of found) expect(line).toMatch(/^dune-skink\/\w+\.yaml:\d+:\d+ /)
  })
})

it('checks the home of an invented animal without a line of code of its own', () => {
  const loaded = loadProtocol(INVENTED, DUNE_SKINK)
  if (!loaded.ok || !loaded.enclosure) throw new Error('the invented content has faults')
  const read = readEnclosureCase(loaded.enclosure, {
    answers: { 'burrow-warmth': 28.5, 'shadow-warmth': 28, gauge: 'stick' },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const check = checkEnclosure(loaded.enclosure, read.value, 0, 'humming')
  expect(check.faults.map(({ id, instrumentDoubt }) => [id, instrumentDoubt])).toEqual([
    ['shadowless', false],
    ['cold-sand', true],
  ])
  expect(check.readings[0]).toMatchObject({
    position: 'below',
    outBy: 1.5,
    instrumentSays: 'It may be the stick.',
  })
})
