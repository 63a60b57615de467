/**
 * Where on the body: a list of tick boxes, and the drawing beside it doing the same by touch.
 * The list is the whole control; the drawing only mirrors it.
 */
import type { VNode } from 'preact'
import { SeveralList, type SeveralOption, toggled } from '../parts/SeveralList.tsx'
import { GeckoDrawing } from './GeckoDrawing.tsx'
import type { RegionName } from './geckoOutline.ts'
import type { GeckoShape } from './geckoShape.ts'

export interface BodyMapOption extends SeveralOption {
  /** The places of the drawing this option stands for; none for "somewhere else". */
  readonly regions?: readonly RegionName[]
}

export interface BodyMapProps {
  readonly name: string
  readonly title: string
  readonly hint?: string
  readonly options: readonly BodyMapOption[]
  readonly chosen: readonly string[]
  readonly onChange: (chosen: string[]) => void
  readonly shape?: Partial<GeckoShape>
}

export function BodyMap(props: BodyMapProps): VNode {
  const { options, chosen, onChange } = props
  const marked = options.flatMap(option => (chosen.includes(option.value) ? (option.regions ?? []) : []))
  const tap = (region: RegionName): void => {
    const option = options.find(one => one.regions?.includes(region) === true)
    if (option !== undefined) onChange(toggled(options, chosen, option))
  }
  return (
    <SeveralList
      name={props.name}
      title={props.title}
      {...(props.hint === undefined ? {} : { hint: props.hint })}
      options={options}
      chosen={chosen}
      onChange={onChange}
      picture={
        <GeckoDrawing
          {...(props.shape === undefined ? {} : { shape: props.shape })}
          marked={marked}
          tappable={options.flatMap(option => option.regions ?? [])}
          onTap={tap}
          sideways
          underside
        />
      }
    />
  )
}
