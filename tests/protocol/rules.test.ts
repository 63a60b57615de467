import { describe, expect, it } from 'vitest'
import { type Change, faultsAfter } from './invented.ts'

// Each line breaks one thing in the invented content and names the very faults that must come of it.
const CASES: readonly [name: string, changes: readonly Change[], faults: readonly string[]][] = [
  [
    'a rule that can never be true',
    [
      [
        'dune-skink/concerns/humming.yaml',
        'when: { humming-when: all-day }',
        'when: { all: [{ which-skink: dune }, { which-skink: other-skink }, { humming-when: all-day }] }',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:33:11 rule humming-all-day: can never be true; accepted: a condition that some answers fulfil',
    ],
  ],
  [
    'a rule that its gate shuts for ever',
    [
      [
        'dune-skink/questions.yaml',
        'onlyIf: { digging: digs-slowly or worse }',
        'onlyIf: { which-skink: other-skink }',
      ],
      ['dune-skink/concerns/fading.yaml', 'fading-where: [back, belly], term', 'which-skink: dune, term'],
    ],
    [
      'dune-skink/concerns/fading.yaml:61:11 rule fading-cold: can never be true; accepted: a condition that some answers fulfil',
    ],
  ],
  [
    'a gate that can never open',
    [
      [
        'dune-skink/questions.yaml',
        'onlyIf: { digging: digs-slowly or worse }',
        'onlyIf: { all: [{ which-skink: dune }, { which-skink: other-skink }] }',
      ],
    ],
    [
      'dune-skink/concerns/fading.yaml:61:11 rule fading-cold: can never be true; accepted: a condition that some answers fulfil',
      'dune-skink/questions.yaml:35:13 question sand-warmth: its gate can never open; accepted: a condition that some answers fulfil',
    ],
  ],
  [
    'a rule without a condition',
    [['dune-skink/concerns/humming.yaml', '    when: { humming-when: all-day }\n', '']],
    [
      'dune-skink/concerns/humming.yaml:32:5 humming-all-day: when: missing; accepted: a condition (only a base rule has none)',
      'dune-skink/concerns/humming.yaml:15:9 humming-when: none of its answers is used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a rule without a finding basis',
    [['dune-skink/concerns/humming.yaml', '    findingBasis: common-practice\n', '']],
    [
      'dune-skink/concerns/humming.yaml:32:5 rules.0.findingBasis: missing; accepted: published, common-practice, project-judgement',
    ],
  ],
  [
    'a finding published by a keeper page only',
    [
      [
        'dune-skink/concerns/fading.yaml',
        '    evidence: [row-S2]\n    findingBasis: project-judgement',
        '    evidence: [row-S2]\n    findingBasis: published',
      ],
    ],
    [
      'dune-skink/concerns/fading.yaml:66:19 fading-cold: findingBasis: given: published with row-S2; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a finding published without evidence',
    [
      [
        'dune-skink/concerns/humming.yaml',
        '    findingBasis: common-practice',
        '    findingBasis: published',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:37:19 humming-all-day: findingBasis: given: published with no evidence; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a speed published by a row that gives none',
    [
      [
        'dune-skink/general-rules.yaml',
        '    evidence: [row-D2]\n    findingBasis: published\n    urgencyBasis: project-judgement',
        '    evidence: [row-D2]\n    findingBasis: published\n    urgencyBasis: published',
      ],
    ],
    [
      'dune-skink/general-rules.yaml:26:19 digs-no-more: urgencyBasis: given: published with row-D2; accepted: published with a row that has speedFromSource and a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a speed that only a keeper page gives',
    [['dune-skink/concerns/fading.yaml', 'urgencyBasis: common-practice', 'urgencyBasis: published']],
    [
      'dune-skink/concerns/fading.yaml:67:19 fading-cold: urgencyBasis: given: published with row-S2; accepted: published with a row that has speedFromSource and a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a threshold published by a keeper page only',
    [['dune-skink/bands.yaml', 'basis: project-judgement', 'basis: published']],
    [
      'dune-skink/bands.yaml:13:12 sand-cold: basis: given: published with row-S2; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a threshold without a basis',
    [['dune-skink/bands.yaml', '    basis: project-judgement\n', '']],
    [
      'dune-skink/bands.yaml:2:5 findings.0.basis: missing; accepted: published, common-practice, project-judgement',
    ],
  ],
  [
    'a stated normal without evidence',
    [['dune-skink/concerns/humming.yaml', 'evidence: [row-H1], basis', 'evidence: [], basis']],
    [
      'dune-skink/concerns/humming.yaml:4:68 humming normal: basis: given: published with no evidence; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
    ],
  ],
  [
    'a day rule without holding',
    [['dune-skink/general-rules.yaml', '    holding: hold-sand\n', '']],
    [
      'dune-skink/general-rules.yaml:21:14 digs-no-more: holding: missing; accepted: a holding plan for a rule at day',
    ],
  ],
  [
    'a now sign without holding',
    [
      [
        'dune-skink/danger-signs.yaml',
        '    firstAid: first-aid-sand\n    holding: hold-sand\n',
        '    firstAid: first-aid-sand\n',
      ],
    ],
    ['dune-skink/danger-signs.yaml:5:5 signs.0.holding: missing; accepted: string'],
  ],
  [
    'a home rule without care',
    [
      [
        'dune-skink/concerns/fading.yaml',
        '    reason: The sand is cold and it digs slower.\n    care: [home-sand]\n',
        '    reason: The sand is cold and it digs slower.\n',
      ],
    ],
    [
      'dune-skink/concerns/fading.yaml:62:14 fading-cold: care: missing; accepted: a home plan for a rule at home',
    ],
  ],
  [
    'a base rule without care',
    [
      [
        'dune-skink/concerns/humming.yaml',
        '  reason: It hums at dusk, as skinks do.\n  care: [home-sand]\n',
        '  reason: It hums at dusk, as skinks do.\n',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:25:12 humming-base: care: missing; accepted: a home plan for a base rule',
    ],
  ],
  [
    'a base rule at well without what is normal',
    [
      [
        'dune-skink/concerns/humming.yaml',
        'normal: { text: "Humming at dusk is normal.", evidence: [row-H1], basis: published }\n',
        '',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:24:12 humming-base: base rule at well: normal is missing; accepted: well with normal, or home',
    ],
  ],
  [
    'a base rule at week',
    [
      [
        'dune-skink/concerns/fading.yaml',
        '  urgency: home\n  reason: The scales fade, and',
        '  urgency: week\n  reason: The scales fade, and',
      ],
    ],
    ['dune-skink/concerns/fading.yaml:44:12 fading-base: base rule: given: week; accepted: home, well'],
  ],
  [
    'a base rule with a condition',
    [
      [
        'dune-skink/concerns/fading.yaml',
        '  id: fading-base\n',
        '  id: fading-base\n  when: { fading-where: back }\n',
      ],
    ],
    ['dune-skink/concerns/fading.yaml:44:9 fading-base: base rule: given: a condition; accepted: none'],
  ],
  [
    'a floor above the urgency of its rule',
    [['dune-skink/concerns/humming.yaml', '    urgency: week\n', '    urgency: week\n    whenUnsure: day\n']],
    [
      "dune-skink/concerns/humming.yaml:35:17 humming-all-day: whenUnsure: given: day, above the rule's own week; accepted: its urgency or lower",
    ],
  ],
  [
    'a window on a day rule',
    [['dune-skink/general-rules.yaml', '    urgency: day\n', '    urgency: day\n    withinHours: 12\n']],
    [
      'dune-skink/general-rules.yaml:22:18 digs-no-more: withinHours: given: 12 at day; accepted: below 168, on a rule at week',
    ],
  ],
  [
    'a window as long as a week',
    [['dune-skink/general-rules.yaml', 'withinHours: 72', 'withinHours: 168']],
    [
      'dune-skink/general-rules.yaml:9:18 another-skink: withinHours: given: 168 at week; accepted: below 168, on a rule at week',
    ],
  ],
  [
    'a rule that mentions nine questions',
    [
      [
        'dune-skink/concerns/humming.yaml',
        'when: { humming-when: all-day }',
        'when: { humming-when: all-day, humming-now: hums-ear or worse, worry: fading, sand-cold: cold-sand, sign: [sinking, sand-in-ear], tried: painted, which-skink: dune }',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:33:11 rule humming-all-day: mentions 9 questions (sinking, sand-in-ear, humming-when, humming-now, worry, sand-warmth, digging, tried, which-skink), gates included; accepted: at most 8',
    ],
  ],
  [
    "a concern's rule that mentions another concern's question",
    [
      [
        'dune-skink/concerns/humming.yaml',
        'when: { humming-when: all-day }',
        'when: { any: [{ humming-when: all-day }, { fading-where: back }] }',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:33:11 rule humming-all-day: mentions fading-where, a question of fading; accepted: questions of humming, common questions, findings and signs',
    ],
  ],
  [
    "a general rule that mentions a concern's question",
    [
      [
        'dune-skink/general-rules.yaml',
        'when: { digging: digs-not }',
        'when: { any: [{ digging: digs-not }, { humming-when: all-day }] }',
      ],
    ],
    [
      'dune-skink/general-rules.yaml:20:11 rule digs-no-more: mentions humming-when, a question of humming; accepted: common questions, findings and signs',
    ],
  ],
  [
    "a common question whose gate mentions a concern's question",
    [
      [
        'dune-skink/questions.yaml',
        'onlyIf: { digging: digs-slowly or worse }',
        'onlyIf: { any: [{ digging: digs-slowly or worse }, { humming-when: all-day }] }',
      ],
    ],
    [
      'dune-skink/questions.yaml:35:13 sand-warmth: onlyIf: mentions humming-when, a question of humming; accepted: the concern and common questions',
    ],
  ],
]

describe('content faults: rules', () => {
  it.each(CASES)('names %s', (_name, changes, faults) => {
    expect(faultsAfter(...changes)).toEqual(faults)
  })
})
