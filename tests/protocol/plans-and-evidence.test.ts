import { describe, expect, it } from 'vitest'
import { type Change, faultsAfter } from './invented.ts'

// Each line breaks one thing in the invented content and names the very faults that must come of it.
const CASES: readonly [name: string, changes: readonly Change[], faults: readonly string[]][] = [
  [
    'a home plan without a time to look again',
    [
      [
        'dune-skink/care/home-sand.yaml',
        'lookAgain:\n  - { morning: 1, look: "Are the scales paler?" }\n  - { day: 7, look: "Have the scales come back?" }\n',
        'lookAgain: []\n',
      ],
    ],
    [
      'dune-skink/care/home-sand.yaml:16:12 home-sand: lookAgain: given: none; accepted: at least one time to look again',
    ],
  ],
  [
    'a holding plan without a time to look again',
    [
      [
        'dune-skink/care/hold-sand.yaml',
        'lookAgain:\n  - { hours: 2, look: "Does it stand?" }\n',
        'lookAgain: []\n',
      ],
    ],
    [
      'dune-skink/care/hold-sand.yaml:7:12 hold-sand: lookAgain: given: none; accepted: at least one time to look again',
    ],
  ],
  [
    'a home plan without signs that end it',
    [['dune-skink/care/home-sand.yaml', 'getHelpIf:\n  - It sinks into the sand\n', 'getHelpIf: []\n']],
    [
      'dune-skink/care/home-sand.yaml:19:12 home-sand: getHelpIf: given: none; accepted: at least one sign that ends the plan',
    ],
  ],
  [
    'a holding plan without signs that end it',
    [['dune-skink/care/hold-sand.yaml', 'getHelpIf:\n  - It sinks again\n', 'getHelpIf: []\n']],
    [
      'dune-skink/care/hold-sand.yaml:9:12 hold-sand: getHelpIf: given: none; accepted: at least one sign that ends the plan',
    ],
  ],
  [
    'a look with two times',
    [['dune-skink/care/home-sand.yaml', 'day: 7,', 'day: 7, hours: 3,']],
    [
      'dune-skink/care/home-sand.yaml:18:5 home-sand: lookAgain: accepted: exactly one of hours, morning, day',
    ],
  ],
  [
    'a step that a never-do of its plan forbids',
    [['dune-skink/care/home-sand.yaml', 'act: medicate, part: skin', 'act: clean, part: enclosure']],
    [
      'dune-skink/care/home-sand.yaml:8:10 home-sand: step sieve (clean enclosure) contradicts never-do no-paint; accepted: another act or part, or onlyWhen or forbiddenWhen that keeps them apart',
    ],
  ],
  [
    'two steps of one plan that are opposite',
    [
      [
        'dune-skink/care/home-sand.yaml',
        '    act: clean\n    part: enclosure\n',
        '    act: cool\n    part: enclosure\n',
      ],
    ],
    [
      'dune-skink/care/home-sand.yaml:8:10 home-sand: step sieve (cool) is the opposite of step warm-sand-step (warm); accepted: onlyWhen that keeps them apart',
    ],
  ],
  [
    'a plan that no rule names',
    [['dune-skink/danger-signs.yaml', '    firstAid: first-aid-sand\n', '']],
    [
      'dune-skink/care/first-aid-sand.yaml:1:5 plan first-aid-sand: no rule names it; accepted: a plan that a rule calls for',
    ],
  ],
  [
    'a step without a basis',
    [['dune-skink/care/hold-sand.yaml', ', basis: project-judgement', '']],
    [
      'dune-skink/care/hold-sand.yaml:5:5 steps.0.basis: missing; accepted: published, common-practice, project-judgement',
    ],
  ],
  [
    'a step published without evidence',
    [['dune-skink/care/hold-sand.yaml', 'basis: project-judgement', 'basis: published']],
    [
      'dune-skink/care/hold-sand.yaml:5:112 hold-sand box: basis: given: published with no evidence; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a never-do published without evidence',
    [
      [
        'dune-skink/care/home-sand.yaml',
        'part: skin, basis: project-judgement',
        'part: skin, basis: published',
      ],
    ],
    [
      'dune-skink/care/home-sand.yaml:15:89 home-sand no-paint: basis: given: published with no evidence; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a source that no row cites',
    [
      [
        'sources.yaml',
        '- id: src-keeper',
        '- id: src-lost\n  title: Lost\n  class: paper\n  read: full\n- id: src-keeper',
      ],
    ],
    ['sources.yaml:12:7 source src-lost: no evidence row cites it; accepted: a source that a row cites'],
  ],
  [
    'a cited source that is missing',
    [['evidence.yaml', 'sources: []', 'sources: [src-moon]']],
    ['evidence.yaml:26:13 row-X1: sources: given: src-moon; accepted: an id of sources.yaml'],
  ],
  [
    'an evidence row neither used nor left out',
    [
      [
        'left-out.yaml',
        '- rows: [row-X1]\n  because: Belongs to the sneezing concern, not built yet.\n',
        '[]\n',
      ],
    ],
    [
      'evidence.yaml:23:7 evidence row row-X1: neither used nor left out; accepted: a rule, finding or plan that names it, or left-out.yaml',
    ],
  ],
  [
    'an evidence row both used and left out',
    [['left-out.yaml', '[row-X1]', '[row-X1, row-D1]']],
    [
      'left-out.yaml:1:18 left out: given: row-D1, which is used too; accepted: a row that no rule, finding or plan names',
    ],
  ],
  [
    'an unknown row left out',
    [['left-out.yaml', '[row-X1]', '[row-X1, row-X2]']],
    ['left-out.yaml:1:18 left out: given: row-X2; accepted: a row of evidence.yaml'],
  ],
  [
    'a row left out twice',
    [['left-out.yaml', '[row-X1]', '[row-X1, row-X1]']],
    ['left-out.yaml:1:18 left out: given: row-X1, a second time; accepted: each row once'],
  ],
  [
    'a forbidden word on a screen',
    [['dune-skink/concerns/fading.yaml', 'hint: Pale scales', 'hint: Dull scales']],
    ['dune-skink/concerns/fading.yaml:3:7 word: given: Dull; accepted: the words of content/README.md'],
  ],
  [
    'a forbidden word in the words of every outcome',
    [['words.yaml', 'A vet can help.', 'A limp skink needs a vet.']],
    ['words.yaml:9:12 word: given: limp; accepted: the words of content/README.md'],
  ],
  [
    'a sentence of 19 words',
    [
      [
        'dune-skink/concerns/humming.yaml',
        'reason: It hums all day.',
        'reason: It hums. It hums hums hums hums hums hums hums hums hums hums hums hums hums hums hums hums hums loudly.',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:35:13 sentence of 19 words: "It hums hums hums hums hums hums hums hums hums hums hums hums hums hums hums hums hums loudly."; accepted: at most 18',
    ],
  ],
  [
    'a duplicate key',
    [['dune-skink/care/hold-sand.yaml', 'kind: holding\n', 'kind: holding\nkind: holding\n']],
    ['dune-skink/care/hold-sand.yaml:3:1 Map keys must be unique at line 3, column 1:'],
  ],
  [
    'a value that is not in the list',
    [['dune-skink/concerns/humming.yaml', 'urgency: well', 'urgency: fine']],
    [
      'dune-skink/concerns/humming.yaml:25:12 base.urgency: given: fine; accepted: well, home, week, day, now',
    ],
  ],
  [
    'a key that is not known',
    [['dune-skink/care/hold-sand.yaml', 'title: Until', 'titel: Until']],
    [
      'dune-skink/care/hold-sand.yaml:1:1 title: missing; accepted: string',
      'dune-skink/care/hold-sand.yaml:1:1 : given: {"id":"hold-sand","kind":"holding","titel":"Until a vet sees it","steps":[{"i...; not known here: titel',
    ],
  ],
]

describe('content faults: care plans, evidence and words', () => {
  it.each(CASES)('names %s', (_name, changes, faults) => {
    expect(faultsAfter(...changes)).toEqual(faults)
  })
})
