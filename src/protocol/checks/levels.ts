import { rankOf } from '../../../shared/urgency.ts'
import type { Checking } from './context.ts'

/** Urgencies, windows and floors of rules, and the plans each urgency calls for. */
export function checkLevels({ source, logic, rules, refuse }: Checking): void {
  const { weekHours } = source.species.value.windows
  const homePlans = new Set(logic.carePlans.filter(({ kind }) => kind === 'home').map(({ id }) => id))
  for (const { written, prepared, document, path } of rules) {
    const { rule } = prepared
    const say = (key: readonly string[], message: string) =>
      refuse(document, [...path, ...key], `${rule.id}: ${message}`)
    const urgent = written.urgency === 'now' || written.urgency === 'day'
    if (urgent && written.holding === undefined)
      say(['urgency'], `holding: missing; accepted: a holding plan for a rule at ${written.urgency}`)
    if ((written.urgency === 'home' || rule.origin === 'base') && !written.care.some(id => homePlans.has(id)))
      say(
        ['urgency'],
        `care: missing; accepted: a home plan for a ${rule.origin === 'base' ? 'base rule' : 'rule at home'}`,
      )
    if (rankOf(rule.unsure) > rankOf(rule.level))
      say(
        ['whenUnsure'],
        `whenUnsure: given: ${rule.unsure.urgency}, above the rule's own ${rule.level.urgency}; accepted: its urgency or lower`,
      )
    const floor = typeof written.whenUnsure === 'object' ? written.whenUnsure : undefined
    const windows = [
      { key: ['withinHours'], urgency: written.urgency, hours: written.withinHours },
      { key: ['whenUnsure', 'withinHours'], urgency: floor?.urgency, hours: floor?.withinHours },
    ]
    for (const { key, urgency, hours } of windows)
      if (hours !== undefined && (urgency !== 'week' || hours >= weekHours))
        say(
          key,
          `withinHours: given: ${hours} at ${urgency}; accepted: below ${weekHours}, on a rule at week`,
        )
    if (rule.origin === 'base') {
      if (urgent || written.urgency === 'week')
        say(['urgency'], `base rule: given: ${written.urgency}; accepted: home, well`)
      if ('when' in written && written.when !== undefined)
        say(['when'], 'base rule: given: a condition; accepted: none')
      const concern = source.concerns.find(({ value }) => value.id === rule.concern)
      if (written.urgency === 'well' && !concern?.value.normal)
        say(['urgency'], `base rule at well: normal is missing; accepted: well with normal, or home`)
    } else if (rule.when === undefined)
      say([], 'when: missing; accepted: a condition (only a base rule has none)')
  }
}
