import type { Example } from './example.ts'
import { Notice } from './Notice.tsx'

export const examples: Example[] = [
  {
    title: 'With a title',
    show: () => (
      <Notice title="Your answers are not saved on this device">
        <p>The browser refused. This page goes on from memory.</p>
      </Notice>
    ),
  },
  {
    title: 'Words only',
    show: () => (
      <Notice>
        <p>These two answers are from yesterday. Look again.</p>
      </Notice>
    ),
  },
]
