import * as z from 'zod/mini'
import { calendarDay } from './moment.ts'
import { filledLine } from './safe-text.ts'
import { isZone } from './zone.ts'

/**
 * What a clinic says about itself in its link. All of it comes from outside and anyone can write it: it is shown as
 * text, with who supplied it, and it can make the outcome more urgent but never less.
 */

export const WEEKDAYS = [
  'monday',
  'tuesday',
  'wednesday',
  'thursday',
  'friday',
  'saturday',
  'sunday',
] as const
export type Weekday = (typeof WEEKDAYS)[number]

/** What a clinic may raise a concern to. */
export const RAISED_TO = ['week', 'day', 'now'] as const

/** Digits with the signs that numbers are written with; words cannot hide in it. At most 15 digits (ITU-T E.164). */
export const telephone = z
  .string()
  .check(z.maxLength(30), z.regex(/^\+?[ ()./-]{0,2}[0-9](?:[ ()./-]{0,2}[0-9]){2,14}\)?$/))

const clockTime = z.string().check(z.regex(/^(?:[01][0-9]|2[0-3]):[0-5][0-9]$/))
const closingTime = z.string().check(z.regex(/^(?:(?:[01][0-9]|2[0-3]):[0-5][0-9]|24:00)$/))

/** From and to by the wall clock; where `to` is not after `from` it lies on the next day. */
export const openSpanSchema = z.strictObject({ from: clockTime, to: closingTime })
export type OpenSpan = z.infer<typeof openSpanSchema>

export const clinicSchema = z.strictObject({
  name: filledLine(80),
  telephone,
  /** Who answers while it is closed, at this or at another practice. */
  outOfHours: z.optional(z.strictObject({ name: z.optional(filledLine(80)), telephone })),
  /** IANA time zone in which the hours count. */
  zone: z.string().check(z.maxLength(60), z.refine(isZone)),
  weeklyHours: z
    .array(z.strictObject({ day: z.enum(WEEKDAYS), ...openSpanSchema.shape }))
    .check(z.maxLength(28)),
  /** Days that differ from the week: shut, or open in other spans. Both ends count. */
  holidays: z
    .array(
      z.strictObject({
        from: calendarDay,
        to: calendarDay,
        spans: z._default(z.array(openSpanSchema).check(z.maxLength(4)), []),
      }),
    )
    .check(z.maxLength(60)),
  address: z.optional(filledLine(200)),
  /** Shown as text, never followed. */
  webPage: z.optional(z.string().check(z.maxLength(200), z.regex(/^https:\/\/[!-~]+$/))),
  speciesSeen: z.optional(filledLine(160)),
  /** Id of the concern with which its visitors begin. */
  startConcern: z.optional(z.string().check(z.maxLength(40))),
  greeting: z.optional(z.array(filledLine(120)).check(z.maxLength(2))),
  /** The version of the guide which the clinic says it has checked; absent: none. */
  checkedVersion: z.optional(filledLine(20)),
  /** Concerns, by id, that this clinic sees sooner than the guide says. */
  raised: z
    .array(
      z.strictObject({ concern: z.string().check(z.minLength(1), z.maxLength(40)), to: z.enum(RAISED_TO) }),
    )
    .check(z.maxLength(60)),
  /** The number to phone at an urgency in place of the general one. A number only, so that no words can soften it. */
  telephoneFor: z.optional(
    z.strictObject({
      now: z.optional(telephone),
      day: z.optional(telephone),
      week: z.optional(telephone),
    }),
  ),
})
export type Clinic = z.infer<typeof clinicSchema>
