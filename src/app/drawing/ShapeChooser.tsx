/** One choice among pictures of the whole animal: how wide the tail is, how full the body. */
import type { VNode } from 'preact'
import { type Choice, ChoiceList, type ChoiceListProps } from '../parts/ChoiceList.tsx'
import { GeckoDrawing } from './GeckoDrawing.tsx'
import type { GeckoShape } from './geckoShape.ts'

export interface ShapeChoice extends Omit<Choice, 'picture'> {
  /** Without a shape the choice has words only. */
  readonly shape?: Partial<GeckoShape>
}

export interface ShapeChooserProps extends Omit<ChoiceListProps, 'options'> {
  readonly options: readonly ShapeChoice[]
  /** Carries the width of the neck down beside the tail as dashed lines. */
  readonly neckGuides?: boolean
}

export function ShapeChooser({ options, neckGuides = false, ...rest }: ShapeChooserProps): VNode {
  return (
    <ChoiceList
      {...rest}
      options={options.map(({ shape, ...option }) =>
        shape === undefined
          ? option
          : {
              ...option,
              picture: <GeckoDrawing shape={shape} pose="straight" sideways neckGuides={neckGuides} />,
            },
      )}
    />
  )
}
