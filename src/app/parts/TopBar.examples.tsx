import type { Example } from './example.ts'
import { TopBar } from './TopBar.tsx'

export const examples: Example[] = [
  {
    title: 'On every screen',
    show: () => <TopBar name="Duskcheck" homeHref="#" phoneLabel="Phone a vet" phoneHref="#phone" />,
  },
]
