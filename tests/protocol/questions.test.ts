import { describe, expect, it } from 'vitest'
import { type Change, faultsAfter } from './invented.ts'

// Each line breaks one thing in the invented content and names the very faults that must come of it.
const CASES: readonly [name: string, changes: readonly Change[], faults: readonly string[]][] = [
  [
    'an answer that nothing uses',
    [
      [
        'dune-skink/questions.yaml',
        '{ id: painted, text: "Its scales were painted" }',
        '{ id: painted, text: "Its scales were painted" }\n      - { id: sung-to, text: "It was sung to" }',
      ],
    ],
    [
      'dune-skink/questions.yaml:16:15 tried: answer sung-to is not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a second answer of a question of fact that nothing uses',
    [
      [
        'dune-skink/questions.yaml',
        '{ id: other-skink, text: "Another skink" }',
        '{ id: other-skink, text: "Another skink" }\n      - { id: maybe-skink, text: "Not sure" }\n      - { id: any-skink, text: "Any skink" }',
      ],
    ],
    [
      'dune-skink/questions.yaml:10:15 which-skink: answer any-skink is not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'an answer of a sign that counts no more than the mildest',
    [
      [
        'dune-skink/concerns/humming.yaml',
        '{ id: all-day, text: "All day" }',
        '{ id: at-dawn, text: "At dawn" }\n      - { id: all-day, text: "All day" }',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:20:15 humming-when: answer at-dawn is not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a question of which no answer is used',
    [['dune-skink/care/first-aid-sand.yaml', ', onlyWhen: { sand-place: in-sun }', '']],
    [
      'dune-skink/questions.yaml:37:9 sand-place: none of its answers is used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a number that no finding uses',
    [
      [
        'dune-skink/concerns/fading.yaml',
        'when: { fading-where: back, fading-days: many-days }',
        'when: { fading-where: back }',
      ],
    ],
    [
      'dune-skink/concerns/fading.yaml:22:9 fading-since: no used finding rests on it; accepted: one that a rule, gate, care condition or the page to the vet uses',
      'dune-skink/concerns/fading.yaml:32:9 finding fading-days: not used; accepted: one that a rule, gate, care condition or the page to the vet uses',
    ],
  ],
  [
    'a finding whose unit is not that of its question',
    [['dune-skink/bands.yaml', 'unit: celsius', 'unit: grams']],
    ['dune-skink/bands.yaml:5:11 sand-cold: unit: given: grams; accepted: celsius, the unit of sand-warmth'],
  ],
  [
    'a finding of time in another unit',
    [['dune-skink/concerns/fading.yaml', 'unit: days', 'unit: percent']],
    ['dune-skink/concerns/fading.yaml:35:11 fading-days: unit: given: percent; accepted: hours, days'],
  ],
  [
    'an amount without a unit',
    [['dune-skink/questions.yaml', '    unit: celsius\n', '']],
    ['dune-skink/questions.yaml:28:11 sand-warmth: amount needs unit, from and to'],
  ],
  [
    'a moment in a unit that is none of time',
    [['dune-skink/concerns/fading.yaml', '    kind: since\n', '    kind: since\n    unit: grams\n']],
    [
      'dune-skink/concerns/fading.yaml:24:11 fading-since: unit: given: grams; accepted for since: hours, days',
    ],
  ],
  [
    'a finding from a question without a number',
    [['dune-skink/bands.yaml', 'question: sand-warmth', 'question: digging']],
    [
      'dune-skink/bands.yaml:4:15 sand-cold: question: given: digging, of kind choice; accepted: a question of kind since or amount',
      'dune-skink/questions.yaml:27:9 sand-warmth: no used finding rests on it; accepted: one that a rule, gate, care condition or the page to the vet uses',
      'dune-skink/concerns/fading.yaml:61:11 rule fading-cold: can never be true; accepted: a condition that some answers fulfil',
    ],
  ],
  [
    'bands with a gap',
    [['dune-skink/bands.yaml', 'from: 20, below: 30', 'from: 20, below: 28']],
    [
      'dune-skink/bands.yaml:8:9 sand-cold: band warm-sand: gap from 28 to 30; accepted: bands that tile the range',
    ],
  ],
  [
    'bands that overlap',
    [['dune-skink/bands.yaml', 'below: 20 }', 'below: 22 }']],
    [
      'dune-skink/bands.yaml:9:9 sand-cold: band cool-sand: overlaps cold-sand below 22; accepted: bands that tile the range',
    ],
  ],
  [
    'bands that end before the range does',
    [['dune-skink/concerns/fading.yaml', 'from: 7 }', 'from: 7, below: 30 }']],
    [
      'dune-skink/concerns/fading.yaml:39:9 fading-days: band many-days: gap from 30 to the end; accepted: bands that tile the range',
    ],
  ],
  [
    'bands listed from worst to mildest',
    [['dune-skink/bands.yaml', 'worse: lower', 'worse: higher']],
    [
      'dune-skink/bands.yaml:8:9 sand-cold: band warm-sand: out of order; accepted: mildest first, cold-sand, cool-sand, warm-sand',
    ],
  ],
  [
    'a grid whose first cell does not take every loss',
    [
      [
        'dune-skink/questions.yaml',
        'care:\n',
        '  - { id: skink-weights, kind: weights, ask: What does it weigh?, unit: grams, cannotMeasure: true, staysGoodHours: 24 }\ncare:\n',
      ],
      [
        'dune-skink/bands.yaml',
        'findings:\n',
        'findings:\n  - { id: skink-loss, name: Lost, computed: weightLoss, measuredBy: skink-weights, unit: percent, worse: higher, grid: [{ id: little, text: Little, atLeastPercent: 2 }, { id: much, text: Much, atLeastPercent: 10 }], basis: project-judgement }\n',
      ],
      [
        'dune-skink/general-rules.yaml',
        '{ tried: painted }',
        '{ tried: painted, skink-loss: much or worse }',
      ],
    ],
    [
      'dune-skink/bands.yaml:2:121 skink-loss: cell little: accepted: a mildest cell that takes every loss (atLeastPercent 0 or less, no withinDays)',
    ],
  ],
  [
    'a grid listed from worst to mildest',
    [
      [
        'dune-skink/questions.yaml',
        'care:\n',
        '  - { id: skink-weights, kind: weights, ask: What does it weigh?, unit: grams, cannotMeasure: true, staysGoodHours: 24 }\ncare:\n',
      ],
      [
        'dune-skink/bands.yaml',
        'findings:\n',
        'findings:\n  - { id: skink-loss, name: Lost, computed: weightLoss, measuredBy: skink-weights, unit: percent, worse: higher, grid: [{ id: little, text: Little, atLeastPercent: 0 }, { id: much, text: Much, atLeastPercent: 10, withinDays: 7 }, { id: some, text: Some, atLeastPercent: 5 }], basis: project-judgement }\n',
      ],
      [
        'dune-skink/general-rules.yaml',
        '{ tried: painted }',
        '{ tried: painted, skink-loss: much or worse }',
      ],
    ],
    [
      'dune-skink/bands.yaml:2:170 skink-loss: cell much: out of order, some takes all it takes; accepted: mildest first',
    ],
  ],
  [
    'a loss of weight in another unit than percent',
    [
      [
        'dune-skink/questions.yaml',
        'care:\n',
        '  - { id: skink-weights, kind: weights, ask: What does it weigh?, unit: grams, cannotMeasure: true, staysGoodHours: 24 }\ncare:\n',
      ],
      [
        'dune-skink/bands.yaml',
        'findings:\n',
        'findings:\n  - { id: skink-loss, name: Lost, computed: weightLoss, measuredBy: skink-weights, unit: days, worse: higher, grid: [{ id: little, text: Little, atLeastPercent: 0 }, { id: much, text: Much, atLeastPercent: 10 }], basis: project-judgement }\n',
      ],
      [
        'dune-skink/general-rules.yaml',
        '{ tried: painted }',
        '{ tried: painted, skink-loss: much or worse }',
      ],
    ],
    ['dune-skink/bands.yaml:2:90 skink-loss: unit: given: days; accepted: percent'],
  ],
  [
    'seasons that overlap and leave a month out',
    [
      [
        'dune-skink/bands.yaml',
        'findings:\n',
        'findings:\n  - { id: dune-season, name: Season, computed: season, unit: months, worse: none, hemisphere: { question: which-skink, south: other-skink }, months: [{ id: dry, text: Dry, months: [1, 2, 3, 4, 5, 6] }, { id: wet, text: Wet, months: [6, 7, 8, 9, 10, 11] }], basis: project-judgement }\n',
      ],
      ['dune-skink/general-rules.yaml', '{ tried: painted }', '{ tried: painted, dune-season: wet }'],
    ],
    [
      'dune-skink/bands.yaml:2:203 dune-season: season wet: overlaps dry in month 6; accepted: each month once',
      'dune-skink/bands.yaml:2:150 dune-season: dune-season: gap, months 12; accepted: each month once',
    ],
  ],
  [
    'a gate that names a later question',
    [
      [
        'dune-skink/questions.yaml',
        '    ask: How does it dig?\n',
        '    ask: How does it dig?\n    onlyIf: { sand-cold: cold-sand }\n',
      ],
    ],
    [
      'dune-skink/questions.yaml:21:13 digging: onlyIf: given: sand-cold, which is asked later; accepted: earlier questions and findings',
    ],
  ],
  [
    'a gate that names a danger sign',
    [['dune-skink/questions.yaml', 'onlyIf: { digging: digs-slowly or worse }', 'onlyIf: { sign: sinking }']],
    [
      'dune-skink/questions.yaml:35:13 sand-warmth: onlyIf: given: danger sign sinking; accepted: earlier questions and findings',
    ],
  ],
  [
    'a gate that names a danger screen',
    [
      [
        'dune-skink/questions.yaml',
        'onlyIf: { digging: digs-slowly or worse }',
        'onlyIf: { look-sand: sinking }',
      ],
    ],
    [
      'dune-skink/questions.yaml:35:13 sand-warmth: onlyIf: given: danger screen look-sand; accepted: earlier questions and findings',
    ],
  ],
  [
    'a gate that a worse answer would shut',
    [
      [
        'dune-skink/questions.yaml',
        'onlyIf: { digging: digs-slowly or worse }',
        'onlyIf: { digging: digs-slowly }',
      ],
    ],
    [
      'dune-skink/questions.yaml:35:24 digging: takes digs-slowly but not the worse digs-not; accepted: "digs-slowly or worse"',
    ],
  ],
  [
    'a condition that takes the mildest answer of a sign',
    [['dune-skink/concerns/humming.yaml', 'humming-when: all-day', 'humming-when: [at-dusk, all-day]']],
    [
      'dune-skink/concerns/humming.yaml:33:27 humming-when: takes the mildest option at-dusk; accepted: all-day',
    ],
  ],
  [
    'a concern without a look-now question',
    [
      ['dune-skink/concerns/humming.yaml', 'text: "It sinks", sign: sinking', 'text: "It sinks"'],
      [
        'dune-skink/concerns/humming.yaml',
        '{ humming-when: all-day }',
        '{ any: [{ humming-when: all-day }, { humming-now: hums-ear or worse }] }',
      ],
    ],
    [
      'dune-skink/concerns/humming.yaml:6:3 humming: no look-now question, most danger signs in one question: 1; accepted: a question with 2 to 5 danger signs',
    ],
  ],
  [
    'a danger screen with seven lines',
    [
      [
        'dune-skink/danger-signs.yaml',
        'signs:\n',
        'signs:\n  - { id: ear-a, screen: look-ear, text: Ear, urgency: day, reason: Ear., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: ear-b, screen: look-ear, text: Ear, urgency: day, reason: Ear., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: ear-c, screen: look-ear, text: Ear, urgency: day, reason: Ear., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: ear-d, screen: look-ear, text: Ear, urgency: day, reason: Ear., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: ear-e, screen: look-ear, text: Ear, urgency: day, reason: Ear., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: ear-f, screen: look-ear, text: Ear, urgency: day, reason: Ear., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n',
      ],
    ],
    ['dune-skink/danger-signs.yaml:3:11 danger screen look-ear: given: 7 lines; accepted: 1 to 6'],
  ],
  [
    'a danger screen without a line',
    [
      [
        'dune-skink/danger-signs.yaml',
        'signs:\n',
        '  - { id: look-tail, ask: Look at its tail., door: Tail, staysGoodHours: 4 }\nsigns:\n',
      ],
    ],
    ['dune-skink/danger-signs.yaml:4:11 danger screen look-tail: given: 0 lines; accepted: 1 to 6'],
  ],
  [
    'an eighth danger screen',
    [
      [
        'dune-skink/danger-signs.yaml',
        'signs:\n',
        '  - { id: look-a, ask: Look., door: Look, staysGoodHours: 4 }\n  - { id: look-b, ask: Look., door: Look, staysGoodHours: 4 }\n  - { id: look-c, ask: Look., door: Look, staysGoodHours: 4 }\n  - { id: look-d, ask: Look., door: Look, staysGoodHours: 4 }\n  - { id: look-e, ask: Look., door: Look, staysGoodHours: 4 }\n  - { id: look-f, ask: Look., door: Look, staysGoodHours: 4 }\nsigns:\n  - { id: seen-a, screen: look-a, text: Seen, urgency: day, reason: Seen., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: seen-b, screen: look-b, text: Seen, urgency: day, reason: Seen., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: seen-c, screen: look-c, text: Seen, urgency: day, reason: Seen., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: seen-d, screen: look-d, text: Seen, urgency: day, reason: Seen., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: seen-e, screen: look-e, text: Seen, urgency: day, reason: Seen., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n  - { id: seen-f, screen: look-f, text: Seen, urgency: day, reason: Seen., holding: hold-sand, findingBasis: common-practice, urgencyBasis: project-judgement }\n',
      ],
    ],
    ['dune-skink/danger-signs.yaml:9:5 danger screens: given: 8; accepted: at most 7'],
  ],
]

describe('content faults: questions, findings and screens', () => {
  it.each(CASES)('names %s', (_name, changes, faults) => {
    expect(faultsAfter(...changes)).toEqual(faults)
  })
})
