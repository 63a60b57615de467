import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Example } from '../parts/example.ts'
import { BodyMap } from './BodyMap.tsx'
import { GeckoDrawing } from './GeckoDrawing.tsx'
import { ShapeChooser } from './ShapeChooser.tsx'

function Places(): VNode {
  const [chosen, change] = useState<string[]>(['a', 'l'])
  return (
    <BodyMap
      name="example-map"
      title="Where is the old skin?"
      hint="Tick the list or tap the drawing. Left is its own left."
      options={[
        { value: 'a', label: 'Left front toes', regions: ['region-toes-front-left'] },
        { value: 'b', label: 'Right front toes', regions: ['region-toes-front-right'] },
        { value: 'c', label: 'Left back toes', regions: ['region-toes-hind-left'] },
        { value: 'd', label: 'Right back toes', regions: ['region-toes-hind-right'] },
        { value: 'e', label: 'Eyes', regions: ['region-eye-left', 'region-eye-right'] },
        { value: 'f', label: 'Nostrils', regions: ['region-nostrils'] },
        { value: 'g', label: 'Mouth', regions: ['region-mouth'] },
        { value: 'h', label: 'Head', regions: ['region-head', 'region-neck'] },
        { value: 'i', label: 'Back', regions: ['region-back'] },
        { value: 'j', label: 'Belly', regions: ['region-belly'] },
        {
          value: 'k',
          label: 'Legs',
          regions: [
            'region-leg-front-left',
            'region-leg-front-right',
            'region-leg-hind-left',
            'region-leg-hind-right',
          ],
        },
        { value: 'l', label: 'Tail tip', regions: ['region-tail-tip'] },
        { value: 'm', label: 'Tail', regions: ['region-tail', 'region-tail-base'] },
        { value: 'n', label: 'Opening under the tail', regions: ['region-vent'] },
        { value: 'o', label: 'Somewhere else' },
      ]}
      chosen={chosen}
      onChange={change}
    />
  )
}

function Widths(): VNode {
  const [chosen, choose] = useState<string | undefined>('b')
  return (
    <ShapeChooser
      name="example-widths"
      title="How wide is the tail?"
      hint="Look from above. The dashed lines are as wide as the neck."
      neckGuides
      options={[
        { value: 'a', label: 'Wider than the neck', shape: { tailWidth: 1.5 } },
        { value: 'b', label: 'As wide as the neck', shape: { tailWidth: 1 } },
        {
          value: 'c',
          label: 'Thinner than the neck',
          shape: { tailWidth: 0.6, condition: -0.7 },
        },
        { value: 'e', label: 'I looked and can’t tell', apart: true },
      ]}
      chosen={chosen}
      onChoose={choose}
    />
  )
}

export const examples: Example[] = [
  { title: 'Illustration', show: () => <GeckoDrawing /> },
  { title: 'Narrow', show: () => <GeckoDrawing shape={{ condition: -1, tailWidth: 0.5 }} /> },
  { title: 'Broad', show: () => <GeckoDrawing shape={{ condition: 1, tailWidth: 1.8 }} /> },
  { title: 'Body map', show: () => <Places /> },
  { title: 'Tail width', show: () => <Widths /> },
]
