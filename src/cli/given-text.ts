import { readFileSync } from 'node:fs'
import { failure, type Result, shown, success } from '../../shared/result.ts'

/** The text of a file, or of standard input for `-`; one fault where it cannot be read. */
export function givenText(file: string): Result<string> {
  try {
    return success(readFileSync(file === '-' ? 0 : file, 'utf8'))
  } catch (error) {
    const why = error instanceof Error ? error.message : shown(error)
    return failure([{ field: 'file', value: file, accepted: `a file that can be read (${why})` }])
  }
}

/** A text as JSON; one fault where it is none. */
export function givenJson(text: string, file: string): Result<unknown> {
  try {
    return success(JSON.parse(text))
  } catch (error) {
    const why = error instanceof Error ? error.message : shown(error)
    return failure([{ field: 'file', value: file, accepted: `JSON (${why})` }])
  }
}
