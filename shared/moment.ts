import * as z from 'zod/mini'

/** An instant in ISO 8601 with an offset or Z, such as `2026-11-25T02:10:00Z`. */
export const instant = z.iso.datetime({ offset: true })

/** A calendar day, `YYYY-MM-DD`. */
export const calendarDay = z.iso.date()

/** The time of an assessment: an instant and the IANA time zone in which its days are counted. */
export const momentSchema = z.strictObject({ instant, zone: z.string() })
export type Moment = z.infer<typeof momentSchema>
