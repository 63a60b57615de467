import type { Example } from './example.ts'
import { Sections } from './Sections.tsx'

export const examples: Example[] = [
  {
    title: 'All four lists',
    show: () => (
      <Sections
        sections={[
          {
            id: 'example-steps',
            title: 'Do this now',
            list: {
              kind: 'steps',
              items: [
                'Put it in a quiet box with air holes.',
                'Lay plain kitchen paper under it. Change it when it is dirty.',
                'Wash your hands.',
              ],
            },
          },
          {
            id: 'example-nevers',
            title: 'Never do this',
            list: {
              kind: 'nevers',
              items: ['Do not pull at the skin.', 'Give no medicine for people or other animals.'],
            },
          },
          {
            id: 'example-signs',
            title: 'Phone at once if',
            list: { kind: 'signs', items: ['the toe turns dark', 'it does not react to touch'] },
          },
          {
            id: 'example-reasons',
            title: 'Why',
            lead: 'You told us:',
            list: { kind: 'reasons', items: ['a band of skin round a toe', 'the toe is thicker'] },
          },
        ]}
      />
    ),
  },
]
