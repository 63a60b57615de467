/**
 * The five urgencies, mildest first. `now`: phone a vet now. `day`: seen within 24 hours.
 * `week`: seen within 7 days, sooner if `withinHours` says so. `home`: care at home, look again at a
 * stated time. `well`: nothing worrying in what was told.
 */
export const URGENCIES = ['well', 'home', 'week', 'day', 'now'] as const

export type Urgency = (typeof URGENCIES)[number]

/** An urgency together with the hours within which the animal should be seen (absent for home and well). */
export interface Level {
  readonly urgency: Urgency
  readonly withinHours?: number
}

/** Hours are counted down from this number inside a level, so that sooner sorts higher. */
const HOURS_CEILING = 100_000

/**
 * A level as one integer: a higher urgency is always greater, and within one urgency a shorter window
 * is greater. Zero is kept for "gives nothing".
 */
export function rankOf(level: Level): number {
  const hours = level.withinHours ?? HOURS_CEILING - 1
  return (URGENCIES.indexOf(level.urgency) + 1) * HOURS_CEILING + (HOURS_CEILING - 1 - hours)
}

/** The level that `rankOf` turned into `rank`; undefined for zero. */
export function levelOf(rank: number): Level | undefined {
  const urgency = URGENCIES[Math.floor(rank / HOURS_CEILING) - 1]
  if (urgency === undefined) return undefined
  const withinHours = HOURS_CEILING - 1 - (rank % HOURS_CEILING)
  return withinHours === HOURS_CEILING - 1 ? { urgency } : { urgency, withinHours }
}

/** The greatest rank there is: phone a vet now. */
export const HIGHEST_RANK = rankOf({ urgency: 'now', withinHours: 0 })

/** Whether `urgency` is at least as urgent as `other`. */
export function atLeastAsUrgent(urgency: Urgency, other: Urgency): boolean {
  return URGENCIES.indexOf(urgency) >= URGENCIES.indexOf(other)
}
