import type { DangerPart, Frame, QuestionWords } from '../../../shared/compiled.ts'

/** The content of the first load: everything up to and including the danger screens. */
export interface FirstContent {
  readonly part: DangerPart
  /** The words of the danger screens, by id. */
  readonly questions: Readonly<Record<string, QuestionWords>>
  readonly frame: Pick<Frame, 'name' | 'trustLine' | 'nobodyTonight' | 'money' | 'suffering'> & {
    /** What an outcome at `now` says first. */
    readonly phoneNow: string
  }
}
