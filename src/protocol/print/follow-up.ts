import type { CompiledProtocol } from '../../../shared/compiled.ts'
import type { FollowUpLimit } from '../../../shared/follow-up.ts'
import { conditionText, type Lookup, levelText } from './lookup.ts'

function amountOf({ days, hours, looks, from }: FollowUpLimit): string {
  const amount =
    days !== undefined
      ? `${days} days`
      : hours !== undefined
        ? `${hours} hours`
        : `${looks} looks without an end`
  return from === undefined ? amount : `${amount} since \`${from}\``
}

/** How a home plan is carried through, for a vet to read: what a look may find, when it raises, how it ends. */
export function followUpLines(protocol: CompiledProtocol, lookup: Lookup, id: string): string[] {
  const plan = protocol.followUps.plans[id]
  const words = protocol.followUps.words[id]
  if (!plan || !words) return []
  return [
    `- At each look: ${words.ask}`,
    ...plan.options.map(
      ({ means, level }, index) =>
        `  - "${words.options[index]}": ${means}${level ? `, ${levelText(level)}` : ''}`,
    ),
    ...plan.limits.map((limit, index) => {
      const only = limit.when ? ` Only when: ${conditionText(protocol, lookup, limit.when)}.` : ''
      return `- After ${amountOf(limit)} without an end, ${levelText(limit.level)}: ${words.reasons[index]}${only}`
    }),
    `- No look after two asks: ${levelText(plan.missed)}`,
    `- After the listed looks, every ${plan.thenEveryDays} days; a last look ${plan.lastLookDays} days after it closed`,
  ]
}
