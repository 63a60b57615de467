import type { Moment } from '../../shared/moment.ts'
import type { LifeStage } from './flags.ts'
import { calendarDayIn, instantMilliseconds, MILLISECONDS_PER_DAY } from './time.ts'

/** Age in calendar days of the zone of `now`, from a hatch date (`YYYY-MM-DD`); negative when it lies ahead. */
export function ageInDays(hatchedOn: string, now: Moment): number {
  const today = calendarDayIn(now.zone)(instantMilliseconds(now.instant, 'now.instant'))
  return today - Math.floor(instantMilliseconds(`${hatchedOn}T00:00:00Z`, 'hatchedOn') / MILLISECONDS_PER_DAY)
}

/** Whether it still grows, as far as its hatch date tells. */
export function lifeStageOf(hatchedOn: string | undefined, grownFromDays: number, now: Moment): LifeStage {
  if (hatchedOn === undefined) return 'unknown'
  return ageInDays(hatchedOn, now) < grownFromDays ? 'young' : 'grown'
}
