import { Disclosure } from './Disclosure.tsx'
import type { Example } from './example.ts'

const body = (
  <>
    <p>Shine a torch from the side, not into its eyes.</p>
    <p>Look at each toe in turn.</p>
  </>
)

export const examples: Example[] = [
  { title: 'Closed', show: () => <Disclosure summary="How to look">{body}</Disclosure> },
  {
    title: 'Open',
    show: () => (
      <Disclosure summary="How to look" open>
        {body}
      </Disclosure>
    ),
  },
]
