import { type Clinic, clinicSchema } from '../../shared/clinic.ts'
import type { LinkKind } from './link/codec.ts'

/** A clinic's details in its link. The fullest come to about 4,500 characters. */
export const CLINIC_LINK: LinkKind<Clinic> = {
  version: 1,
  read: json => clinicSchema.safeParse(json).data,
  mostCharacters: 8_000,
  mostJsonBytes: 32_768,
}
