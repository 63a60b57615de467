import type { Example } from './example.ts'
import { TimeCircle } from './TimeCircle.tsx'

const days = (count: number) =>
  Array.from({ length: count }, (_, at) => ({ at: (at + 1) / count, number: at + 1 }))
const words = { lead: 'Be seen', note: 'Sooner is better.' }

export const examples: Example[] = [
  {
    title: 'A day',
    show: () => (
      <TimeCircle
        {...words}
        day="by tomorrow evening, 20:00"
        fraction={1}
        marks={[6, 12, 18, 24].map(number => ({ at: number / 24, number }))}
        legend="Once round is 24 hours from now."
      />
    ),
  },
  {
    title: 'Three days',
    show: () => (
      <TimeCircle
        {...words}
        day="by Thursday evening, 20:00"
        fraction={0.9}
        marks={days(3)}
        legend="Once round is 3 days from now."
      />
    ),
  },
  {
    title: 'A week',
    show: () => (
      <TimeCircle
        {...words}
        day="by Monday 7 December morning, 08:00"
        fraction={0.95}
        marks={days(7)}
        legend="Once round is 7 days from now."
      />
    ),
  },
]
