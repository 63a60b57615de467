import { rankOf } from '../../../shared/urgency.ts'
import type { Path } from '../documents.ts'
import type { Checking } from './context.ts'

const DAY_HOURS = 24

/** Every home plan is carried through: its looks lead to an end, to the vet, or on, and never to nothing. */
export function checkFollowUps({ source, followUps, questions, refuse }: Checking): void {
  const { weekHours } = source.species.value.windows
  const homes = new Set(
    source.carePlans.filter(({ value }) => value.kind === 'home').map(({ value }) => value.id),
  )
  const begunOnceBy = new Map<string, string>()
  for (const { value, document } of source.carePlans) {
    const { followUp } = value
    const say = (path: Path, message: string) =>
      refuse(document, ['followUp', ...path], `${value.id}: followUp: ${message}`)
    if (!followUp) {
      if (value.kind === 'home')
        refuse(
          document,
          ['id'],
          `${value.id}: followUp: missing; accepted: how this home plan is carried through`,
        )
      continue
    }
    if (value.kind !== 'home') {
      say([], `given: on a ${value.kind} plan; accepted: on home plans`)
      continue
    }
    const vets = (path: Path, urgency: string | undefined, withinHours: number | undefined) => {
      if (urgency !== 'week' && urgency !== 'day' && urgency !== 'now')
        say([...path, 'urgency'], `urgency: given: ${urgency ?? 'none'}; accepted: week, day, now`)
      if (withinHours !== undefined && (urgency !== 'week' || withinHours >= weekHours))
        say(
          [...path, 'withinHours'],
          `withinHours: given: ${withinHours} at ${urgency}; accepted: below ${weekHours}, at week`,
        )
    }
    const plan = followUps.plans[value.id]

    let before = 0
    followUp.options.forEach(({ means, urgency, withinHours }, at) => {
      const path = ['options', at]
      // A danger check without an urgency leaves the answer to the check: old skin found, say.
      if (means === 'raises' || (means === 'danger-check' && urgency !== undefined))
        vets(path, urgency, withinHours)
      else if (urgency !== undefined && means !== 'danger-check')
        say([...path, 'urgency'], `urgency: given: on an option that ${means}; accepted: none`)
      const level = plan?.options[at]?.level
      const place = means === 'closes' ? 1 : means === 'goes-on' ? 2 : 3 + (level ? rankOf(level) : 0)
      if (place < before)
        say(path, `options: given: ${means} after a worse one; accepted: from best to worst`)
      before = place
    })
    for (const means of ['closes', 'danger-check'] as const)
      if (!followUp.options.some(option => option.means === means))
        say(['options'], `options: none that means ${means}; accepted: at least one`)
    vets(['missed'], followUp.missed.urgency, followUp.missed.withinHours)

    const goesOn = followUp.options.some(({ means }) => means === 'goes-on')
    if (goesOn && !followUp.limits.some(({ when }) => when === undefined))
      say(['limits'], 'limits: none that holds always; accepted: at least one, so that "same" has an end')
    followUp.limits.forEach((limit, at) => {
      const path = ['limits', at]
      vets(path, limit.urgency, limit.withinHours)
      if ([limit.days, limit.hours, limit.looks].filter(one => one !== undefined).length !== 1)
        say(path, `limit ${limit.id}: accepted: exactly one of days, hours, looks`)
      if (limit.from === undefined) return
      if (limit.looks !== undefined)
        say([...path, 'from'], `limit ${limit.id}: given: from with looks; accepted: from with days or hours`)
      const question = questions.find(({ source: one }) => one.id === limit.from)?.source
      if (question?.kind !== 'since')
        say([...path, 'from'], `from: given: ${limit.from}; accepted: a question of kind since`)
    })
    const named = followUp.limits.map(({ id }) => id)
    const options = followUp.options.map(({ id }) => id)
    for (const [key, ids] of [
      ['limits', named],
      ['options', options],
    ] as const)
      ids.forEach((id, at) => {
        if (ids.indexOf(id) !== at) say([key, at, 'id'], `${id}: stands twice; accepted: an id used once`)
      })

    const fixed = followUp.limits.flatMap(({ days, hours, when }) =>
      when === undefined ? [days ?? (hours === undefined ? [] : hours / DAY_HOURS)].flat() : [],
    )
    if (followUp.closesFromDay !== undefined && fixed.some(days => days < (followUp.closesFromDay ?? 0)))
      say(
        ['closesFromDay'],
        `closesFromDay: given: ${followUp.closesFromDay}, after a limit; accepted: no later than every limit`,
      )
    if (followUp.spotsFrom !== undefined) {
      const question = questions.find(({ source: one }) => one.id === followUp.spotsFrom)?.source
      if (question?.kind !== 'several')
        say(['spotsFrom'], `spotsFrom: given: ${followUp.spotsFrom}; accepted: a question of kind several`)
    }
    followUp.replaces.forEach((id, at) => {
      if (!homes.has(id) || id === value.id)
        say(['replaces', at], `replaces: given: ${id}; accepted: another home plan`)
    })
    if (followUp.begins !== 'rules') {
      const other = begunOnceBy.get(followUp.begins)
      if (other)
        say(['begins'], `begins: given: ${followUp.begins}, as ${other}; accepted: one plan for each`)
      begunOnceBy.set(followUp.begins, value.id)
    }
  }
}
