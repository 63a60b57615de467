import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Example } from './example.ts'
import { SeveralList } from './SeveralList.tsx'

function Demo(): VNode {
  const [chosen, change] = useState<string[]>(['two'])
  return (
    <SeveralList
      name="example-several"
      title="Which of these do you see?"
      hint="Tick all that fit."
      options={[
        { value: 'one', label: 'Loose skin on the back' },
        { value: 'two', label: 'A band of skin round a toe' },
        { value: 'three', label: 'Skin over an eye' },
        { value: 'four', label: 'None of these', alone: true },
        { value: 'five', label: 'I looked and can’t tell', alone: true },
      ]}
      chosen={chosen}
      onChange={change}
    />
  )
}

export const examples: Example[] = [{ title: 'One ticked', show: () => <Demo /> }]
