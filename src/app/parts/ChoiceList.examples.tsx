import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { ChoiceList } from './ChoiceList.tsx'
import type { Example } from './example.ts'

function Demo({ first }: { first?: string }): VNode {
  const [chosen, choose] = useState(first)
  return (
    <ChoiceList
      name={`example-${first ?? 'empty'}`}
      title="What happens when you touch its side?"
      hint="Use one finger. Do not lift it."
      options={[
        { value: 'one', label: 'It reacts as usual' },
        { value: 'two', label: 'It reacts slower than usual' },
        { value: 'three', label: 'It only lifts its head', hint: 'Its body stays where it was.' },
        { value: 'four', label: 'It does not react' },
        { value: 'five', label: 'I looked and can’t tell', apart: true },
      ]}
      chosen={chosen}
      onChoose={choose}
    />
  )
}

export const examples: Example[] = [
  { title: 'Nothing chosen', show: () => <Demo /> },
  { title: 'One chosen', show: () => <Demo first="two" /> },
]
