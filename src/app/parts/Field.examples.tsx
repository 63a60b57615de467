import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Example } from './example.ts'
import { Field } from './Field.tsx'

function Demo(props: { name: string; first: string; fault?: string }): VNode {
  const [value, change] = useState(props.first)
  return (
    <Field
      name={props.name}
      kind="number"
      label="Weight today"
      hint="A kitchen scale will do."
      unit="g"
      value={value}
      onInput={change}
      {...(props.fault === undefined ? {} : { fault: props.fault })}
    />
  )
}

export const examples: Example[] = [
  { title: 'Empty', show: () => <Demo name="example-weight" first="" /> },
  {
    title: 'With a fault',
    show: () => (
      <Demo
        name="example-fault"
        first="5800"
        fault="Weight: 5800 g is not accepted. Type a number from 1 to 200 g."
      />
    ),
  },
]
