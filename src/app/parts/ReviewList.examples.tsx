import type { Example } from './example.ts'
import { ReviewList } from './ReviewList.tsx'

const nothing = (): void => {}

export const examples: Example[] = [
  {
    title: 'Two to change, one told',
    show: () => (
      <ReviewList
        changeLabel="Change"
        rows={[
          { id: 'one', question: 'When you touch its side', answer: 'It reacts as usual', onChange: nothing },
          {
            id: 'two',
            question: 'Skin on the toes',
            answer: 'A band round one toe, left front foot',
            onChange: nothing,
          },
          { id: 'three', question: 'Weight today', answer: '58 g' },
        ]}
      />
    ),
  },
]
