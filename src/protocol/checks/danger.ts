import type { QuestionSource } from '../../../shared/content.ts'
import type { Checking } from './context.ts'

const MOST_SCREENS = 7
const MOST_LINES = 6
const LEAST_SIGNS = 2
const MOST_SIGNS = 5

/** The danger screens stay short, and a question of each concern looks for two to five danger signs again. */
export function checkDanger({ source, refuse }: Checking): void {
  const { value, document } = source.dangerSigns
  if (value.screens.length > MOST_SCREENS)
    refuse(
      document,
      ['screens', MOST_SCREENS],
      `danger screens: given: ${value.screens.length}; accepted: at most ${MOST_SCREENS}`,
    )
  value.screens.forEach(({ id }, index) => {
    const lines = value.signs.filter(({ screen }) => screen === id).length
    if (lines > MOST_LINES || lines === 0)
      refuse(
        document,
        ['screens', index, 'id'],
        `danger screen ${id}: given: ${lines} lines; accepted: 1 to ${MOST_LINES}`,
      )
  })
  for (const { value: concern, document: place } of source.concerns) {
    const signsOf = ({ options }: QuestionSource) =>
      new Set((options ?? []).flatMap(({ sign }) => sign ?? [])).size
    const most = Math.max(0, ...concern.questions.map(signsOf))
    if (
      !concern.questions.some(question => signsOf(question) >= LEAST_SIGNS && signsOf(question) <= MOST_SIGNS)
    )
      refuse(
        place,
        ['questions'],
        `${concern.id}: no look-now question, most danger signs in one question: ${most}; accepted: a question with ${LEAST_SIGNS} to ${MOST_SIGNS} danger signs`,
      )
  }
}
