import { fromBase64url, toBase64url } from './base64url.ts'
import { crc32 } from './crc32.ts'
import { deflate, inflate } from './deflate.ts'

/**
 * A value as the last part of an address, after `#`, where no server ever sees it: base64url of one byte of version,
 * four bytes of checksum (CRC-32 of the JSON, most significant first), and the JSON in raw deflate.
 */

/** What one kind of link holds, and how large it may be. */
export interface LinkKind<Value> {
  readonly version: number
  /** The value as JSON. */
  readonly write: (value: Value) => unknown
  /** The value that some JSON is, checked against its schema; undefined where it is none. */
  readonly read: (json: unknown) => Value | undefined
  readonly mostCharacters: number
  readonly mostJsonBytes: number
}

/** Why a link cannot be read; `LINK_SENTENCES` says it. */
export type LinkTrouble = 'over-length' | 'other-version' | 'damaged' | 'not-this' | 'old-browser'

export type LinkRead<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly because: LinkTrouble; readonly sentence: string }

/** One plain sentence for whatever is wrong with a link. */
export const LINK_SENTENCES: Readonly<Record<LinkTrouble, string>> = {
  'over-length': 'This link is longer than any link this guide makes. Ask for a new one.',
  'other-version': 'This link is for another version of this guide. Ask for a new one.',
  damaged: 'This link is damaged or cut short. Ask for it again.',
  'not-this': 'This link holds something else than this guide can read. Ask for a new one.',
  'old-browser': 'This browser is too old to read links. Use a newer one, or ask for the file.',
}

const HEAD_BYTES = 5

function trouble<Value>(because: LinkTrouble): LinkRead<Value> {
  return { ok: false, because, sentence: LINK_SENTENCES[because] }
}

/** The value as the data of a link. Fields that are undefined are left out, as JSON has it. */
export async function encodeLink<Value>(kind: LinkKind<Value>, value: Value): Promise<string> {
  const json = new TextEncoder().encode(JSON.stringify(kind.write(value)))
  const packed = await deflate(json)
  const whole = new Uint8Array(HEAD_BYTES + packed.length)
  whole[0] = kind.version
  new DataView(whole.buffer).setUint32(1, crc32(json))
  whole.set(packed, HEAD_BYTES)
  return toBase64url(whole)
}

function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
  } catch {
    return undefined
  }
}

/**
 * Reads the data of a link, whoever wrote it. Sizes are held before anything is unpacked, the schema after; nothing it
 * can hold throws.
 */
export async function decodeLink<Value>(kind: LinkKind<Value>, data: string): Promise<LinkRead<Value>> {
  if (data.length > kind.mostCharacters) return trouble('over-length')
  if (typeof DecompressionStream === 'undefined') return trouble('old-browser')
  const bytes = fromBase64url(data)
  if (!bytes || bytes.length <= HEAD_BYTES) return trouble('damaged')
  if (bytes[0] !== kind.version) return trouble('other-version')
  const json = await inflate(bytes.slice(HEAD_BYTES), kind.mostJsonBytes)
  if (!json || crc32(json) !== new DataView(bytes.buffer).getUint32(1)) return trouble('damaged')
  const value = kind.read(jsonOf(json))
  return value === undefined ? trouble('not-this') : { ok: true, value }
}
