import type { Clinic } from '../../shared/clinic.ts'
import type { Moment } from '../../shared/moment.ts'
import { atLeastAsUrgent, type Urgency } from '../../shared/urgency.ts'
import { type Opening, openingAt } from './opening.ts'

/**
 * The urgency with what the clinic raises: the highest of both. A clinic can never lower one, and what is not settled
 * stays so.
 */
export function raisedUrgency(clinic: Clinic, urgency: Urgency, concerns: readonly string[]): Urgency {
  return clinic.raised
    .filter(({ concern }) => concerns.includes(concern))
    .reduce<Urgency>((highest, { to }) => (atLeastAsUrgent(to, highest) ? to : highest), urgency)
}

/** One number to phone. */
export interface ClinicNumber {
  readonly telephone: string
  /** Whose it is; absent where it is the clinic's own. */
  readonly name?: string | undefined
  readonly kind: 'clinic' | 'out-of-hours'
}

/** What an outcome shows of a clinic. */
export interface ClinicStanding {
  readonly opening: Opening
  /** The number to phone now first. */
  readonly numbers: readonly ClinicNumber[]
  /** Whether the clinic says that it has checked this version of the guide. */
  readonly isChecked: boolean
}

/** The numbers to show at an urgency: while the clinic is shut the out-of-hours number stands first. */
export function clinicStanding(
  clinic: Clinic,
  now: Pick<Moment, 'instant'>,
  { urgency, version }: { readonly urgency: Urgency; readonly version: string },
): ClinicStanding {
  const opening = openingAt(clinic, now)
  const replaced = urgency === 'home' || urgency === 'well' ? undefined : clinic.telephoneFor?.[urgency]
  const own: ClinicNumber = { kind: 'clinic', telephone: replaced ?? clinic.telephone }
  const other: readonly ClinicNumber[] = clinic.outOfHours
    ? [{ kind: 'out-of-hours', ...clinic.outOfHours }]
    : []
  return {
    opening,
    numbers: opening.isOpen ? [own, ...other] : [...other, own],
    isChecked: clinic.checkedVersion === version,
  }
}

/** A number as a `tel:` address (RFC 3966): the digits, and the plus where there is one. */
export function telephoneAddress(telephone: string): string {
  return `tel:${telephone.trimStart().startsWith('+') ? '+' : ''}${telephone.replaceAll(/\D/g, '')}`
}
