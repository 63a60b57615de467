import { describe, expect, it } from 'vitest'
import { type Change, faultsAfter } from './invented.ts'

// Each line breaks one thing in the invented content and names the very faults that must come of it.
const CASES: readonly [name: string, changes: readonly Change[], faults: readonly string[]][] = [
  [
    'a question id that stands twice',
    [['dune-skink/questions.yaml', 'id: seen-first', 'id: fading-since']],
    [
      'dune-skink/questions.yaml:47:9 question or finding fading-since: stands twice; accepted: an id used once',
    ],
  ],
  [
    'a finding with the id of a question',
    [
      ['dune-skink/concerns/fading.yaml', 'id: fading-days', 'id: seen-first'],
      ['dune-skink/concerns/fading.yaml', 'fading-days: many-days', 'seen-first: many-days'],
    ],
    [
      'dune-skink/concerns/fading.yaml:32:9 question or finding seen-first: stands twice; accepted: an id used once',
    ],
  ],
  [
    'an option id that stands twice in one question',
    [
      ['dune-skink/concerns/fading.yaml', 'id: belly', 'id: back'],
      ['dune-skink/concerns/fading.yaml', 'fading-where: belly', 'fading-where: back'],
      ['dune-skink/concerns/fading.yaml', '[back, belly]', '[back]'],
    ],
    [
      'dune-skink/concerns/fading.yaml:19:15 option back: stands twice; accepted: an id used once',
      'dune-skink/concerns/fading.yaml:19:15 fading-where: answer back is not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a band id that stands twice',
    [['dune-skink/bands.yaml', 'id: cold-sand', 'id: cool-sand']],
    ['dune-skink/bands.yaml:10:15 band cool-sand: stands twice; accepted: an id used once'],
  ],
  [
    'a rule id that stands twice',
    [['dune-skink/concerns/humming.yaml', 'id: humming-all-day', 'id: fading-both']],
    ['dune-skink/concerns/humming.yaml:32:9 rule fading-both: stands twice; accepted: an id used once'],
  ],
  [
    'a term that stands twice',
    [
      [
        'dune-skink/general-rules.yaml',
        'rules:\n',
        '  - { id: slow-and-cold, when: { digging: digs-not }, means: Again. }\nrules:\n',
      ],
    ],
    [
      'dune-skink/general-rules.yaml:5:11 term slow-and-cold: stands twice; accepted: an id used once',
      'dune-skink/questions.yaml:27:9 sand-warmth: no used finding rests on it; accepted: one that a rule, gate, care condition or the page to the vet uses',
      'dune-skink/bands.yaml:2:9 finding sand-cold: not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a step id that stands twice in one plan',
    [['dune-skink/care/home-sand.yaml', 'id: sieve', 'id: warm-sand-step']],
    [
      'dune-skink/care/home-sand.yaml:6:9 home-sand: step or never-do warm-sand-step: stands twice; accepted: an id used once',
    ],
  ],
  [
    'a never-do with the id of a step',
    [['dune-skink/care/home-sand.yaml', 'id: no-paint', 'id: sieve']],
    [
      'dune-skink/care/home-sand.yaml:15:11 home-sand: step or never-do sieve: stands twice; accepted: an id used once',
    ],
  ],
  [
    'a plan whose id is not the name of its file',
    [['dune-skink/care/home-sand.yaml', 'id: home-sand', 'id: hold-sand']],
    ["dune-skink/care/home-sand.yaml:1:5 id: given: hold-sand; accepted: the file's own name"],
  ],
  [
    'a source that stands twice',
    [
      ['sources.yaml', 'id: src-keeper', 'id: src-survey'],
      ['evidence.yaml', '[src-keeper]', '[src-survey]'],
    ],
    [
      'sources.yaml:12:7 source src-survey: stands twice; accepted: an id used once',
      'dune-skink/concerns/fading.yaml:48:17 fading-base: findingBasis: given: published with row-S1; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
      'dune-skink/concerns/fading.yaml:57:19 fading-both: findingBasis: given: published with row-S1; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
      'dune-skink/care/home-sand.yaml:13:12 home-sand sieve: basis: given: published with row-S1; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'an evidence row that stands twice',
    [
      ['evidence.yaml', 'id: row-H1', 'id: row-S1'],
      ['dune-skink/concerns/humming.yaml', 'evidence: [row-H1], basis', 'evidence: [row-S1], basis'],
      ['dune-skink/concerns/humming.yaml', '  evidence: [row-H1]\n', '  evidence: [row-S1]\n'],
    ],
    ['evidence.yaml:19:7 evidence row row-S1: stands twice; accepted: an id used once'],
  ],
  [
    'a screen that stands twice',
    [
      ['dune-skink/danger-signs.yaml', 'id: look-ear', 'id: look-sand'],
      ['dune-skink/danger-signs.yaml', 'screen: look-ear', 'screen: look-sand'],
    ],
    [
      'dune-skink/danger-signs.yaml:3:11 question or finding look-sand: stands twice; accepted: an id used once',
      'dune-skink/danger-signs.yaml:3:5 look-sand: answer sinking is not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
      'dune-skink/danger-signs.yaml:3:5 look-sand: answer sand-in-ear is not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'an unknown question in a condition',
    [['dune-skink/concerns/humming.yaml', 'when: { humming-when:', 'when: { humming-why:']],
    ['dune-skink/concerns/humming.yaml:33:26 humming-why: not a question, finding, sign or term'],
  ],
  [
    'an unknown option in a condition',
    [['dune-skink/concerns/humming.yaml', 'humming-when: all-day', 'humming-when: all-night']],
    ['dune-skink/concerns/humming.yaml:33:27 humming-when: given: all-night; accepted: at-dusk, all-day'],
  ],
  [
    'an unknown danger sign in a condition',
    [['dune-skink/care/home-sand.yaml', 'sign: sinking', 'sign: floating']],
    ['dune-skink/care/home-sand.yaml:10:28 sign: given: floating; accepted: an id of danger-signs.yaml'],
  ],
  [
    'an unknown term in a condition',
    [['dune-skink/concerns/fading.yaml', 'term: slow-and-cold', 'term: slow-and-hot']],
    ['dune-skink/concerns/fading.yaml:61:48 term: given: slow-and-hot; accepted: slow-and-cold'],
  ],
  [
    'an unknown evidence row',
    [['dune-skink/care/home-sand.yaml', 'evidence: [row-S1]', 'evidence: [row-S1, row-S9]']],
    ['dune-skink/care/home-sand.yaml:12:24 evidence: given: row-S9; accepted: a row of evidence.yaml'],
  ],
  [
    'an unknown home plan',
    [['dune-skink/concerns/humming.yaml', '    care: [home-sand]', '    care: [home-sand, home-water]']],
    [
      'dune-skink/concerns/humming.yaml:36:23 care: given: home-water, no such plan; accepted: a home plan in care/',
    ],
  ],
  [
    'a holding plan named as care',
    [['dune-skink/concerns/humming.yaml', '    care: [home-sand]', '    care: [hold-sand]']],
    [
      'dune-skink/concerns/humming.yaml:36:12 care: given: hold-sand, a holding plan; accepted: a home plan in care/',
    ],
  ],
  [
    'an unknown holding plan',
    [['dune-skink/general-rules.yaml', 'holding: hold-sand', 'holding: hold-water']],
    [
      'dune-skink/general-rules.yaml:23:14 holding: given: hold-water, no such plan; accepted: a holding plan in care/',
    ],
  ],
  [
    'a first-aid plan named as holding',
    [['dune-skink/general-rules.yaml', 'holding: hold-sand', 'holding: first-aid-sand']],
    [
      'dune-skink/general-rules.yaml:23:14 holding: given: first-aid-sand, a first-aid plan; accepted: a holding plan in care/',
    ],
  ],
  [
    'a holding plan named as first aid',
    [['dune-skink/general-rules.yaml', 'holding: hold-sand', 'holding: hold-sand\n    firstAid: hold-sand']],
    [
      'dune-skink/general-rules.yaml:24:15 firstAid: given: hold-sand, a holding plan; accepted: a first-aid plan in care/',
    ],
  ],
  [
    'an unknown first-aid plan',
    [['dune-skink/danger-signs.yaml', 'firstAid: first-aid-sand', 'firstAid: first-aid-water']],
    [
      'dune-skink/danger-signs.yaml:11:15 firstAid: given: first-aid-water, no such plan; accepted: a first-aid plan in care/',
      'dune-skink/care/first-aid-sand.yaml:1:5 plan first-aid-sand: no rule names it; accepted: a plan that a rule calls for',
    ],
  ],
  [
    'an option that says an unknown danger sign is there',
    [['dune-skink/concerns/humming.yaml', 'text: "All day"', 'text: "All day", sign: floating']],
    ['dune-skink/concerns/humming.yaml:20:47 sign: given: floating; accepted: an id of danger-signs.yaml'],
  ],
  [
    'a species question that is no question',
    [['dune-skink/species.yaml', 'speciesQuestion: which-skink', 'speciesQuestion: whose-skink']],
    ['dune-skink/species.yaml:8:18 speciesQuestion: given: whose-skink; accepted: the id of a question'],
  ],
]

describe('content faults: ids that stand twice or nowhere', () => {
  it.each(CASES)('names %s', (_name, changes, faults) => {
    expect(faultsAfter(...changes)).toEqual(faults)
  })
})
