import { type Clinic, clinicSchema } from '../../shared/clinic.ts'
import type { Handover } from '../../shared/handover.ts'
import { packHistory, unpackHistory } from './history-packing.ts'
import type { LinkKind } from './link/codec.ts'

/** A clinic's details in its link. The fullest come to about 4,500 characters. */
export const CLINIC_LINK: LinkKind<Clinic> = {
  version: 1,
  write: clinic => clinic,
  read: json => clinicSchema.safeParse(json).data,
  mostCharacters: 8_000,
  mostJsonBytes: 32_768,
}

/** A whole history in a link. Above this size it goes as a file. */
export const HISTORY_LINK: LinkKind<Handover> = {
  version: 1,
  write: packHistory,
  read: unpackHistory,
  mostCharacters: 16_000,
  mostJsonBytes: 262_144,
}
