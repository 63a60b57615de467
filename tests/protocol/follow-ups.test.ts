import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type Change, faultsAfter, INVENTED } from './invented.ts'

const FILE = 'dune-skink/care/home-sand.yaml'
const [, BLOCK = ''] = readFileSync(join(INVENTED, FILE), 'utf8').split(/^(?=followUp:)/m)
const change = (find: string, put: string): Change => [FILE, find, put]

// Each line breaks one thing in the follow-up of the invented plan and names the fault that must come of it.
const CASES: readonly [name: string, changes: readonly Change[], fault: string][] = [
  [
    'a home plan that nothing carries through',
    [change(BLOCK, '')],
    'home-sand: followUp: missing; accepted: how this home plan is carried through',
  ],
  [
    'a limit that sends to no vet',
    [change('days: 7, urgency: week, reason', 'days: 7, urgency: home, reason')],
    'home-sand: followUp: urgency: given: home; accepted: week, day, now',
  ],
  [
    'silence that sends to no vet',
    [change('missed: { urgency: week }', 'missed: { urgency: home }')],
    'home-sand: followUp: urgency: given: home; accepted: week, day, now',
  ],
  [
    'a look that raises without an urgency',
    [change('means: danger-check, urgency: day', 'means: raises')],
    'home-sand: followUp: urgency: given: none; accepted: week, day, now',
  ],
  [
    'options that are not from best to worst',
    [
      change(
        '{ id: back-again, text: "As before", means: closes }',
        '{ id: as-pale, text: "As pale", means: goes-on }',
      ),
      change(
        '    - { id: as-pale, text: "As pale", means: goes-on }\n    - { id: paler',
        '    - { id: back-again, text: "As before", means: closes }\n    - { id: paler',
      ),
    ],
    'home-sand: followUp: options: given: closes after a worse one; accepted: from best to worst',
  ],
  [
    'looks that can never end well',
    [change('    - { id: back-again, text: "As before", means: closes }\n', '')],
    'home-sand: followUp: options: none that means closes; accepted: at least one',
  ],
  [
    'looks that can never lead to the danger check',
    [change('means: danger-check, urgency: day', 'means: raises, urgency: day')],
    'home-sand: followUp: options: none that means danger-check; accepted: at least one',
  ],
  [
    'a plan that could stay the same for ever',
    [
      change(
        '  limits:\n    - { id: a-week, days: 7, urgency: week, reason: "Pale for a week.", basis: project-judgement }\n',
        '  limits: []\n',
      ),
    ],
    'home-sand: followUp: limits: none that holds always; accepted: at least one, so that "same" has an end',
  ],
  [
    'a limit of days and looks at once',
    [change('id: a-week, days: 7', 'id: a-week, days: 7, looks: 3')],
    'home-sand: followUp: limit a-week: accepted: exactly one of days, hours, looks',
  ],
  [
    'a limit counted from a question that tells no time',
    [change('id: a-week, days: 7', 'id: a-week, days: 7, from: fading-where')],
    'home-sand: followUp: from: given: fading-where; accepted: a question of kind since',
  ],
  [
    'places from a question with one answer',
    [change('  thenEveryDays: 7\n', '  thenEveryDays: 7\n  spotsFrom: fading-since\n')],
    'home-sand: followUp: spotsFrom: given: fading-since; accepted: a question of kind several',
  ],
  [
    'a plan that takes over from itself',
    [change('  thenEveryDays: 7\n', '  thenEveryDays: 7\n  replaces: [home-sand]\n')],
    'home-sand: followUp: replaces: given: home-sand; accepted: another home plan',
  ],
  [
    'a good look that may close only after the limit',
    [change('  thenEveryDays: 7\n', '  thenEveryDays: 7\n  closesFromDay: 8\n')],
    'home-sand: followUp: closesFromDay: given: 8, after a limit; accepted: no later than every limit',
  ],
  [
    'a window longer than the urgency has',
    [change('days: 7, urgency: week, reason', 'days: 7, urgency: week, withinHours: 200, reason')],
    'home-sand: followUp: withinHours: given: 200 at week; accepted: below 168, at week',
  ],
  [
    'an option that stands twice',
    [change('id: as-pale, text', 'id: back-again, text')],
    'home-sand: followUp: back-again: stands twice; accepted: an id used once',
  ],
  [
    'a limit that claims a source it does not have',
    [
      change(
        'reason: "Pale for a week.", basis: project-judgement',
        'reason: "Pale for a week.", basis: published',
      ),
    ],
    'home-sand limit a-week: basis: given: published with no evidence; accepted: published with a row that has a source other than a keeper page, else common-practice or project-judgement',
  ],
  [
    'a sentence too long for a tired owner',
    [
      change(
        'ask: How do the scales look?',
        'ask: How do the scales look now that you have come back and stand before it with a lamp in one hand?',
      ),
    ],
    'accepted: at most 18',
  ],
]

describe('the content check refuses a follow-up with', () => {
  it.each(CASES)('%s', (_name, changes, fault) => {
    const faults = faultsAfter(...changes)
    expect(faults.some(line => line.includes(fault))).toBe(true)
  })
})

it('the content check lets the untouched follow-up pass', () => {
  expect(faultsAfter()).toEqual([])
})

it('only a home plan may be carried through, and every one is', () => {
  const block =
    'followUp:\n  ask: How?\n  options: []\n  thenEveryDays: 1\n  limits: []\n  missed: { urgency: week }\n  lastLookDays: 1\n  basis: project-judgement\n'
  expect(
    faultsAfter(['dune-skink/care/hold-sand.yaml', 'kind: holding\n', `kind: holding\n${block}`]).some(line =>
      line.includes('hold-sand: followUp: given: on a holding plan; accepted: on home plans'),
    ),
  ).toBe(true)
})
