import { cleanup, render, screen } from '@testing-library/preact'
import { afterEach, expect, test } from 'vitest'
import { QuestionScreen } from '../../../src/app/screens/QuestionScreen.tsx'
import { labels } from '../../../src/app/wording/labels.ts'
import { compiled, NIGHT } from '../screens/walk.ts'

afterEach(cleanup)

const question = compiled.logic.questions.find(({ kind }) => kind === 'weights')
if (!question) throw new Error('No question asks for weights')

const show = (isOnRecord: boolean) =>
  render(
    <QuestionScreen
      question={question}
      words={{ ask: 'What does it weigh?', options: [] }}
      draft={undefined}
      notes={isOnRecord ? [labels.onRecord(60.5, 'on 4 November')] : []}
      isOnRecord={isOnRecord}
      clock={() => NIGHT}
      onAnswer={() => {}}
      onBack={() => {}}
    />,
  )

test('with weights on record only today’s is asked, and the last one is shown', () => {
  show(true)
  expect(screen.getByText('On record: 60.5 g on 4 November. Only today’s weight is asked.')).toBeTruthy()
  expect(screen.getByLabelText(labels.today)).toBeTruthy()
  expect(screen.queryByLabelText(labels.earlier)).toBeNull()
})

test('without any an earlier weight is asked for as well', () => {
  show(false)
  expect(screen.getByLabelText(labels.earlier)).toBeTruthy()
})
