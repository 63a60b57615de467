import type { CompiledProtocol } from '../../../shared/compiled.ts'
import { dangerPartOf } from '../../protocol/danger-part.ts'
import type { FirstContent } from '../content/first.ts'

/** What the first load carries: the danger screens, and whom to phone. It does not grow with the concerns. */
export function firstContent({ logic, frame, dangerWords }: CompiledProtocol): FirstContent {
  const part = dangerPartOf(logic)
  const { name, trustLine, nobodyTonight, money, suffering } = frame
  return {
    part,
    questions: Object.fromEntries(
      part.screens.flatMap(({ id }) => {
        const words = dangerWords.questions[id]
        return words ? [[id, words]] : []
      }),
    ),
    frame: { name, trustLine, nobodyTonight, money, suffering, phoneNow: frame.firstLine.now },
  }
}

/** The whole frame, and the danger words that the first load does without. */
export function frameContent(protocol: CompiledProtocol): Pick<CompiledProtocol, 'frame' | 'dangerWords'> {
  const first = firstContent(protocol).questions
  const { frame, dangerWords } = protocol
  const questions = Object.fromEntries(
    Object.entries(dangerWords.questions).filter(([id]) => first[id] === undefined),
  )
  return { frame, dangerWords: { ...dangerWords, questions } }
}
