import { deflateRawSync } from 'node:zlib'
import { packHistory } from '../../../src/handover/history-packing.ts'
import { decodeLink, encodeLink, LINK_SENTENCES, type LinkKind } from '../../../src/handover/link/codec.ts'
import { crc32 } from '../../../src/handover/link/crc32.ts'
import { CLINIC_LINK, HISTORY_LINK } from '../../../src/handover/links.ts'
import { fullestHistory } from '../fullest.ts'
import { INVENTED_CLINIC } from '../invented-clinic.ts'

/**
 * Links that are damaged, oversized or hostile, from a seed, so that a run can be made again. Each is read; what is
 * counted are crashes, reads without exactly one known sentence, the memory taken and the slowest read.
 */

export interface FuzzResult {
  readonly links: number
  readonly seed: number
  readonly kinds: Readonly<Record<string, number>>
  readonly outcomes: Readonly<Record<string, number>>
  readonly crashes: readonly string[]
  /** Resident memory above what it was after a warm-up, at its highest. */
  readonly mostMemoryMegabytes: number
  readonly slowestMs: number
}

/** A generator of whole numbers below `below` (mulberry32). */
function generator(seed: number): (below: number) => number {
  let state = seed
  return below => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296) * below)
  }
}

/** A link whose sizes and checksum are right, so that the reading goes as far as it can. */
function wellFormed(json: string | Buffer, version = 1): string {
  const bytes = Buffer.from(json)
  const head = Buffer.alloc(5)
  head[0] = version
  head.writeUInt32BE(crc32(bytes), 1)
  return Buffer.concat([head, deflateRawSync(bytes)]).toString('base64url')
}

const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  'javascript:alert(1)',
  '</style><svg onload=alert(1)>',
  '{{constructor.constructor("alert(1)")()}}',
  '\u0000',
  'two\nlines',
  '\u202egnp.exe',
  '\ud800',
  '=cmd|calc',
  'x'.repeat(5000),
  '__proto__',
  '2026-13-45T99:99:99Z',
  -1,
  1e308,
  null,
  true,
  [],
  {},
  [[[[[[]]]]]],
] as const

/** A copy with one place, anywhere inside, replaced by something hostile. */
function spoiled(value: unknown, pick: (below: number) => number): unknown {
  const copy: unknown = structuredClone(value)
  let here = copy
  for (;;) {
    if (typeof here !== 'object' || here === null) return HOSTILE[pick(HOSTILE.length)]
    const keys = Object.keys(here)
    if (keys.length === 0) return copy
    const key = keys[pick(keys.length)] ?? ''
    const inside: unknown = Reflect.get(here, key)
    if (typeof inside !== 'object' || inside === null || pick(5) === 0) {
      const how = pick(12)
      if (how === 0) Reflect.deleteProperty(here, key)
      else if (how === 1) Reflect.set(here, `${key}x`, inside)
      else Reflect.set(here, key, HOSTILE[pick(HOSTILE.length)])
      return copy
    }
    here = inside
  }
}

type Make = (pick: (below: number) => number) => string

async function makers(): Promise<Readonly<Record<string, Make>>> {
  const packed = packHistory(fullestHistory())
  const whole = [
    await encodeLink(CLINIC_LINK, INVENTED_CLINIC),
    await encodeLink(HISTORY_LINK, fullestHistory()),
  ]
  const one = (pick: (below: number) => number) => whole[pick(whole.length)] ?? ''
  const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_'
  const noise = (pick: (below: number) => number, length: number) =>
    Array.from({ length }, () => alphabet[pick(64)]).join('')
  const bombs = [1, 8, 32].map(megabytes => wellFormed(Buffer.alloc(megabytes * 1024 * 1024, 32)))
  const deep = [10, 1000, 30_000].flatMap(depth => [
    wellFormed(`${'['.repeat(depth)}${']'.repeat(depth)}`),
    wellFormed(`${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`),
    wellFormed('['.repeat(depth)),
  ])
  return {
    'cut short': pick => {
      const data = one(pick)
      return data.slice(0, pick(data.length))
    },
    'signs changed': pick => {
      const signs = [...one(pick)]
      for (let times = 1 + pick(4); times > 0; times -= 1)
        signs[pick(signs.length)] = alphabet[pick(64)] ?? ''
      return signs.join('')
    },
    'signs of other alphabets': pick => {
      const data = one(pick)
      const at = pick(data.length)
      return (
        data.slice(0, at) + ['%', ' ', '=', '+', '/', 'é', '<', '\u0000', '💥'][pick(9)] + data.slice(at + 1)
      )
    },
    noise: pick => noise(pick, pick(600)),
    'noise behind a right head': pick => `AQ${noise(pick, pick(400))}`,
    'too long': pick => 'A'.repeat(8_001 + pick(100_000)),
    'another version': pick => wellFormed('{}', 2 + pick(254)),
    bomb: pick => bombs[pick(bombs.length)] ?? '',
    'deep nesting': pick => deep[pick(deep.length)] ?? '',
    'no JSON': pick => wellFormed(noise(pick, pick(200))),
    'no UTF-8': pick => wellFormed(Buffer.from(Array.from({ length: 1 + pick(50) }, () => 128 + pick(128)))),
    'hostile clinic': pick => wellFormed(JSON.stringify(spoiled(INVENTED_CLINIC, pick))),
    'hostile history': pick => wellFormed(JSON.stringify(spoiled(packed, pick))),
    'script in every field': pick => {
      const text = HOSTILE[pick(5)] ?? ''
      return wellFormed(
        JSON.stringify(pick(2) === 0 ? INVENTED_CLINIC : packed, (_, value: unknown) =>
          typeof value === 'string' ? text : value,
        ),
      )
    },
  }
}

const SENTENCES = new Set(Object.values(LINK_SENTENCES))

async function outcomeOf<Value>(kind: LinkKind<Value>, data: string): Promise<string> {
  const read = await decodeLink(kind, data)
  if (!read.ok) return SENTENCES.has(read.sentence) ? read.because : `an unknown sentence: ${read.sentence}`
  return 'read'
}

/** Reads so many hostile links, each as a clinic's and as a history. */
export async function fuzzLinks(links: number, seed: number): Promise<FuzzResult> {
  const pick = generator(seed)
  const make = await makers()
  const names = Object.keys(make)
  const kinds: Record<string, number> = {}
  const outcomes: Record<string, number> = {}
  const crashes: string[] = []
  let start = 0
  let most = 0
  let slowestMs = 0
  for (let at = 0; at < links; at += 1) {
    const name = names[at % names.length] ?? ''
    const data = make[name]?.(pick) ?? ''
    kinds[name] = (kinds[name] ?? 0) + 1
    const began = performance.now()
    for (const read of [() => outcomeOf(CLINIC_LINK, data), () => outcomeOf(HISTORY_LINK, data)]) {
      try {
        const outcome = await read()
        outcomes[outcome] = (outcomes[outcome] ?? 0) + 1
      } catch (error) {
        crashes.push(`${name}: ${String(error)}: ${data.slice(0, 200)}`)
      }
    }
    if (at > 500) slowestMs = Math.max(slowestMs, performance.now() - began)
    const { rss } = process.memoryUsage()
    if (at === 500) start = rss
    most = Math.max(most, rss)
  }
  return {
    links,
    seed,
    kinds,
    outcomes,
    crashes,
    mostMemoryMegabytes: Math.round((most - start) / 1_048_576),
    slowestMs: Math.round(slowestMs),
  }
}
