import type { Example } from './example.ts'
import { FirstLine } from './FirstLine.tsx'

export const examples: Example[] = [
  {
    title: 'Full',
    show: () => (
      <FirstLine
        strength="full"
        words="Phone a vet now, whatever the hour."
        action={{ label: 'Phone', href: '#phone' }}
      />
    ),
  },
  {
    title: 'Strong',
    show: () => (
      <FirstLine
        strength="strong"
        words="Phone tonight if anyone answers, else when they open."
        action={{ label: 'Phone', href: '#phone' }}
      />
    ),
  },
  {
    title: 'Clear',
    show: () => <FirstLine strength="clear" words="Phone tomorrow morning and book." />,
  },
  {
    title: 'Faint',
    show: () => <FirstLine strength="faint" words="Care at home. Look again tomorrow evening." />,
  },
  {
    title: 'None',
    show: () => <FirstLine strength="none" words="Nothing worrying in what you told us." />,
  },
]
