import type { Moment } from '../../shared/moment.ts'
import type { Level, Urgency } from '../../shared/urgency.ts'
import { roundTo } from './numbers.ts'
import type { Place, ShelfAnimal } from './shelf.ts'
import { elapsedDays, instantMilliseconds } from './time.ts'
import type { WeightReport } from './weightReport.ts'

/** The sign that is worked out from weights; every other kind is one that was seen. */
export const LOSING = 'losing'

/** What several animals of one room show together; all of it is data of content. */
export interface SignalRule {
  readonly id: string
  readonly anyOf: readonly string[]
  readonly atLeastAnimals: number
  readonly withinDays: number
  readonly urgency: Urgency
}

export interface SignalPolicy {
  /** From this loss beyond the noise on an animal counts as losing. */
  readonly losingFromPercent: number
  readonly signals: readonly SignalRule[]
}

/** A signal that is up in one room. */
export interface GroupSignal {
  readonly id: string
  /** The room; undefined for all those whose room nobody wrote down. */
  readonly room: string | undefined
  readonly showing: readonly {
    readonly name: string
    readonly place: Place | undefined
    readonly kinds: readonly string[]
  }[]
  /** Racks in which at least as many as the signal asks for show it. */
  readonly racks: readonly string[]
  /** Every animal of that room, those that show it included. */
  readonly contacts: readonly string[]
  readonly level: Level
}

interface Weighed {
  readonly animal: ShelfAnimal
  readonly report: WeightReport
}

/**
 * The signals that are up, room by room. Animals without a room stand together as one, because nobody can say
 * that they are apart. A loss counts from the newest weighing that shows it, whatever began it.
 */
export function groupSignals(weighed: readonly Weighed[], policy: SignalPolicy, now: Moment): GroupSignal[] {
  const rooms = new Map<string | undefined, Weighed[]>()
  for (const one of weighed) {
    const room = one.animal.place?.room
    const inRoom = rooms.get(room)
    if (inRoom === undefined) rooms.set(room, [one])
    else inRoom.push(one)
  }
  const nowMilliseconds = instantMilliseconds(now.instant, 'now.instant')
  return policy.signals.flatMap(rule =>
    [...rooms].flatMap(([room, inRoom]) => {
      const showing = inRoom.flatMap(one => {
        const kinds = kindsOf(one, rule, policy, nowMilliseconds)
        return kinds.length === 0 ? [] : [{ name: one.animal.name, place: one.animal.place, kinds }]
      })
      if (showing.length < rule.atLeastAnimals) return []
      return [
        {
          id: rule.id,
          room,
          showing,
          racks: racksOf(showing, rule.atLeastAnimals),
          contacts: inRoom.map(({ animal }) => animal.name),
          level: { urgency: rule.urgency },
        },
      ]
    }),
  )
}

/** All that was seen of an animal: what its record says happened, and what was told besides. */
export function seenOf({
  events,
  seen = [],
}: ShelfAnimal): readonly { readonly at: string; readonly kind: string }[] {
  return [...events, ...seen]
}

/** Which of the rule's signs one animal showed within its days. */
function kindsOf(
  { animal, report }: Weighed,
  rule: SignalRule,
  { losingFromPercent }: SignalPolicy,
  nowMilliseconds: number,
): string[] {
  const isRecent = (at: string): boolean => {
    const days = elapsedDays(instantMilliseconds(at, 'at'), nowMilliseconds)
    return days >= 0 && days <= rule.withinDays
  }
  const { newest, losses } = report.comparison
  const isLosing =
    newest !== undefined &&
    isRecent(newest.at) &&
    losses.some(({ lossPercent }) => roundTo(lossPercent, 1) >= losingFromPercent)
  return rule.anyOf.filter(kind =>
    kind === LOSING ? isLosing : seenOf(animal).some(one => one.kind === kind && isRecent(one.at)),
  )
}

function racksOf(showing: GroupSignal['showing'], atLeastAnimals: number): string[] {
  const counts = new Map<string, number>()
  for (const { place } of showing)
    if (place?.rack !== undefined) counts.set(place.rack, (counts.get(place.rack) ?? 0) + 1)
  return [...counts].flatMap(([rack, count]) => (count >= atLeastAnimals && count > 1 ? [rack] : []))
}
