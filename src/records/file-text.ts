import { failure, type Result, success } from '../../shared/result.ts'

/** The largest file that is read, in bytes. Ten years of daily weighing of one animal is about 1 MB. */
export const MOST_FILE_BYTES = 50_000_000

/** A file as a browser or a command line gives it; the bytes are asked for only when the size is all right. */
export interface GivenFile {
  readonly name: string
  /** In bytes. */
  readonly size: number
  readonly arrayBuffer: () => Promise<ArrayBuffer>
}

const TEXT_ACCEPTED =
  'a text file; this one holds something else, such as a picture or a spreadsheet of its own form'

/**
 * The text of a file, or one fault where it is too large, empty or no text. UTF-8 and UTF-16 with its mark are read;
 * with `orWindows`, what is no UTF-8 is read as Windows-1252, as spreadsheets on Windows still write it.
 */
export async function readText(file: GivenFile, { orWindows = false } = {}): Promise<Result<string>> {
  const refuse = (value: string, accepted: string) =>
    failure<string>([{ field: 'file', value: `${file.name}, ${value}`, accepted }])
  if (file.size >= MOST_FILE_BYTES)
    return refuse(
      `${Math.round(file.size / 1e6)} MB`,
      `a file below ${MOST_FILE_BYTES / 1e6} MB; nothing was read`,
    )
  const bytes = new Uint8Array(await file.arrayBuffer())
  const text = textOf(bytes, orWindows)
  if (text === undefined) return refuse('no text', TEXT_ACCEPTED)
  if (text.trim() === '') return refuse('empty', 'a file with something in it')
  return success(text)
}

/** Control characters other than tab and the ends of lines and pages are never part of a text. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const BINARY = /[\u0000-\u0008\u000E-\u001F]/

function textOf(bytes: Uint8Array, orWindows: boolean): string | undefined {
  const mark = `${bytes[0]} ${bytes[1]}`
  const encoding = mark === '255 254' ? 'utf-16le' : mark === '254 255' ? 'utf-16be' : 'utf-8'
  const text = decode(bytes, encoding) ?? (orWindows ? decode(bytes, 'windows-1252') : undefined)
  return text === undefined || BINARY.test(text) ? undefined : text
}

function decode(bytes: Uint8Array, encoding: string): string | undefined {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes)
  } catch {
    return undefined
  }
}
