import { constants, deflateRawSync, inflateRawSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fromBase64url, toBase64url } from '../../../src/handover/link/base64url.ts'
import { crc32 } from '../../../src/handover/link/crc32.ts'
import { deflate, inflate } from '../../../src/handover/link/deflate.ts'

const bytesOf = (text: string) => new TextEncoder().encode(text)
const textOf = (bytes: Uint8Array | undefined) => bytes && new TextDecoder().decode(bytes)
const MUCH = 1_000_000

describe('base64url', () => {
  // RFC 4648, section 10; the alphabet of section 5, without the padding that section 3.2 lets a user leave out.
  it.each([
    ['', ''],
    ['f', 'Zg'],
    ['fo', 'Zm8'],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg'],
    ['fooba', 'Zm9vYmE'],
    ['foobar', 'Zm9vYmFy'],
  ])('writes and reads the vector of the standard for "%s"', (text, encoded) => {
    expect(toBase64url(bytesOf(text))).toBe(encoded)
    expect(textOf(fromBase64url(encoded))).toBe(text)
  })

  it('uses the two signs of the alphabet for addresses', () => {
    expect(toBase64url(Uint8Array.of(0xfb, 0xff, 0xbf))).toBe('-_-_')
  })

  it('writes any bytes as Node does, and reads them back', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), bytes => {
        const text = Buffer.from(bytes).toString('base64url')
        expect(toBase64url(bytes)).toBe(text)
        expect(fromBase64url(text)).toEqual(bytes)
      }),
    )
  })

  it.each(['Zg==', 'Zg=', 'Z', 'Zm9v Yg', 'Zm9v\n', 'Zm+v', 'Zm/v', 'Zm9vé', 'Zh', 'Zm9'])(
    'refuses "%s": padding, other alphabets, impossible lengths and bits left over',
    text => {
      expect(fromBase64url(text)).toBeUndefined()
    },
  )
})

describe('the checksum', () => {
  // The check value of CRC-32/ISO-HDLC, the polynomial of RFC 1952, section 8.
  it('gives the check value of its standard', () => {
    expect(crc32(bytesOf('123456789'))).toBe(0xcbf43926)
    expect(crc32(new Uint8Array())).toBe(0)
  })
})

describe('deflate', () => {
  // RFC 1951 by hand: 3.2.4, a stored block of "abc"; 3.2.6, the fixed codes for "a", and for 258 times "a" by distance 1.
  it.each([
    ['stored', '01 03 00 fc ff 61 62 63', 'abc'],
    ['fixed codes', '4b 04 00', 'a'],
    ['nothing', '03 00', ''],
  ])('inflates a block of the standard: %s', async (_, hex, text) => {
    const bytes = Uint8Array.from(hex.split(' '), byte => Number.parseInt(byte, 16))
    expect(textOf(await inflate(bytes, MUCH))).toBe(text)
  })

  it('inflates what zlib writes at every level and strategy', async () => {
    const text = 'a leopard gecko, 58 g, 57.5 g, 57 g; '.repeat(200)
    for (const level of [0, 1, 6, 9])
      for (const strategy of [
        constants.Z_DEFAULT_STRATEGY,
        constants.Z_FILTERED,
        constants.Z_HUFFMAN_ONLY,
        constants.Z_RLE,
        constants.Z_FIXED,
      ]) {
        const packed = Uint8Array.from(deflateRawSync(text, { level, strategy }))
        expect(textOf(await inflate(packed, MUCH)), `level ${level}, strategy ${strategy}`).toBe(text)
      }
  })

  it('writes what zlib inflates', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 3000 }), async bytes => {
        expect(Uint8Array.from(inflateRawSync(await deflate(Uint8Array.from(bytes))))).toEqual(bytes)
      }),
      { numRuns: 50 },
    )
  })

  it.each([
    ['a reserved block type', '07'],
    ['a stored block whose lengths differ', '01 03 00 fc fe 61 62 63'],
    ['a distance before the start', '4b 04 82 00'],
    ['an end that is missing', '4b'],
  ])('refuses %s', async (_, hex) => {
    const bytes = Uint8Array.from(hex.split(' '), byte => Number.parseInt(byte, 16))
    expect(await inflate(bytes, MUCH)).toBeUndefined()
  })

  it('stops a compression bomb at the limit', async () => {
    const bomb = Uint8Array.from(deflateRawSync(Buffer.alloc(64 * 1024 * 1024), { level: 9 }))
    expect(bomb.length).toBeLessThan(100_000)
    const before = process.memoryUsage().arrayBuffers
    expect(await inflate(bomb, 32_768)).toBeUndefined()
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(8 * 1024 * 1024)
  })

  it('holds the limit to the byte', async () => {
    const packed = Uint8Array.from(deflateRawSync(Buffer.alloc(1000)))
    expect((await inflate(packed, 1000))?.length).toBe(1000)
    expect(await inflate(packed, 999)).toBeUndefined()
  })
})
