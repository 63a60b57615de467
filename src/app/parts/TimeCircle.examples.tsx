import type { Example } from './example.ts'
import { TimeCircle } from './TimeCircle.tsx'

const week = [0, 1 / 7, 2 / 7, 3 / 7, 4 / 7, 5 / 7, 6 / 7]
const words = { lead: 'Be seen', note: 'Sooner is better.', dayStarts: week }

export const examples: Example[] = [
  {
    title: 'A day',
    show: () => <TimeCircle {...words} day="by tomorrow evening" fraction={1 / 7} />,
  },
  {
    title: 'Three days',
    show: () => <TimeCircle {...words} day="by Thursday evening" fraction={3 / 7} />,
  },
  { title: 'A week', show: () => <TimeCircle {...words} day="by next Monday" fraction={1} /> },
]
