import { ActionBar } from './ActionBar.tsx'
import type { Example } from './example.ts'

const nothing = (): void => {}

export const examples: Example[] = [
  {
    title: 'Back and on',
    show: () => (
      <ActionBar back={{ label: 'Back', onPress: nothing }} main={{ label: 'Go on', onPress: nothing }} />
    ),
  },
  {
    title: 'With a quiet third',
    show: () => (
      <ActionBar
        back={{ label: 'Back', onPress: nothing }}
        other={{ label: 'Leave out', onPress: nothing }}
        main={{ label: 'Go on', onPress: nothing }}
      />
    ),
  },
  {
    title: 'A link alone',
    show: () => <ActionBar main={{ label: 'Print this page', href: '#print' }} />,
  },
]
