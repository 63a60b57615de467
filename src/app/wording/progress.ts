import type { Frame, Question } from '../../../shared/compiled.ts'
import { labels } from './labels.ts'

/** After the urgent signs: that they are done, and what the questions are about now. */
export function progressNotes({ concerns }: Frame, { phase, concern, forHandover }: Question): string[] {
  if (forHandover) return []
  switch (phase) {
    case 'concern':
      return [labels.signsDone]
    case 'concerns':
      return concerns.filter(({ id }) => id === concern).map(({ name }) => labels.nowAbout(name))
    case 'common':
      return [labels.nowGeneral]
    default:
      return []
  }
}
