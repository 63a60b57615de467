import type { Checking } from './context.ts'

const MOST_SCREENS = 7
const MOST_LINES = 6

/** The danger screens stay short, and each concern's first question looks for two to five danger signs again. */
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
      refuse(document, ['screens', index, 'id'], `danger screen ${id}: given: ${lines} lines; accepted: 1 to ${MOST_LINES}`)
  })
  for (const { value: concern, document: place } of source.concerns) {
    const first = concern.questions[0]
    const signs = new Set((first?.options ?? []).flatMap(({ sign }) => sign ?? []))
    if (signs.size < 2 || signs.size > 5)
      refuse(
        place,
        first ? ['questions', 0, 'id'] : ['questions'],
        `${concern.id}: look-now question ${first?.id ?? 'missing'}: given: ${signs.size} danger signs; accepted: a first question with 2 to 5`,
      )
  }
}
