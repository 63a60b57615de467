import type { EnclosureRoles, LightContent, UvZone } from '../../shared/enclosure.ts'

/** How a UV index stands to the zone of the species. */
export type UvPosition = keyof LightContent['says']
/** How light and powders fit together; two of them are wrong ways, each by its name. */
export type SupplementFit = keyof LightContent['supplements']

export interface LightJudgement {
  readonly uvIndex?: number
  /** The zone whose average holds this index. */
  readonly zone?: number
  readonly speciesZone: number
  readonly position: UvPosition
  readonly says: string
  /** Whether deep shade is the advice. */
  readonly shade: boolean
  readonly conflict: string
  readonly supplements: { readonly fit: SupplementFit; readonly says: string; readonly wrong: boolean }
}

/** The Ferguson zone (1 to 4) whose average range holds a UV index; the last one for all above it. */
export function zoneOf(uvIndex: number, zones: readonly UvZone[]): number | undefined {
  return (zones.find(({ average }) => uvIndex <= average.to) ?? zones.at(-1))?.zone
}

/** Where a UV index at the animal stands for a species of the content's zone. */
export function uvPosition(uvIndex: number | undefined, { zones, speciesZone }: LightContent): UvPosition {
  const own = zones.find(({ zone }) => zone === speciesZone)
  const next = zones.find(({ zone }) => zone === speciesZone + 1)
  if (uvIndex === undefined || !own) return 'unknown'
  if (uvIndex <= own.average.to) return 'withinAverage'
  if (uvIndex <= own.highest.to) return 'withinHighest'
  return next && uvIndex >= next.highest.to ? 'farAbove' : 'aboveZone'
}

/**
 * Whether UV and calcium powders fit: with UV a plain one, without UV one with D3.
 *
 * @param uv whether UV reaches the animal; undefined where not known
 * @param withD3 the option chosen for powder with D3
 * @param plain the option chosen for plain powder
 */
export function supplementFit(
  uv: boolean | undefined,
  withD3: string | undefined,
  plain: string | undefined,
  { rarely, always }: EnclosureRoles,
): SupplementFit {
  if (uv === undefined || withD3 === undefined) return 'unknown'
  const hasD3 = !rarely.includes(withD3)
  if (!uv) {
    if (hasD3) return 'noUvWithD3'
    return plain !== undefined && !rarely.includes(plain) ? 'noUvPlainOnly' : 'noUvNoD3'
  }
  if (always.includes(withD3)) return 'uvAndD3'
  if (plain === undefined) return hasD3 ? 'uvPlain' : 'unknown'
  return rarely.includes(plain) && !hasD3 ? 'uvNoCalcium' : 'uvPlain'
}

const FITTING: ReadonlySet<SupplementFit> = new Set(['uvPlain', 'noUvWithD3', 'unknown'])

/** What the light means for this species: zone, position, shade, and whether the powders fit. */
export function judgeLight(
  light: LightContent,
  roles: EnclosureRoles,
  said: {
    readonly uvIndex: number | undefined
    readonly uv: boolean | undefined
    readonly withD3: string | undefined
    readonly plain: string | undefined
  },
): LightJudgement {
  const { uvIndex } = said
  const position = uvPosition(uvIndex, light)
  const fit = supplementFit(said.uv, said.withD3, said.plain, roles)
  const zone = uvIndex === undefined ? undefined : zoneOf(uvIndex, light.zones)
  return {
    ...(uvIndex === undefined ? {} : { uvIndex }),
    ...(zone === undefined ? {} : { zone }),
    speciesZone: light.speciesZone,
    position,
    says: light.says[position],
    shade: position === 'withinHighest' || position === 'aboveZone' || position === 'farAbove',
    conflict: light.conflict,
    supplements: { fit, says: light.supplements[fit], wrong: !FITTING.has(fit) },
  }
}
