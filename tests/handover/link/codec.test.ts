import { deflateRawSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { clinicSchema } from '../../../shared/clinic.ts'
import { decodeLink, encodeLink, LINK_SENTENCES } from '../../../src/handover/link/codec.ts'
import { crc32 } from '../../../src/handover/link/crc32.ts'
import { CLINIC_LINK } from '../../../src/handover/links.ts'
import { INVENTED_CLINIC } from '../invented-clinic.ts'

/** The data of a link that holds some JSON, made without the codec. */
function linkOf(json: string, version = CLINIC_LINK.version): string {
  const head = Buffer.alloc(5)
  head[0] = version
  head.writeUInt32BE(crc32(Buffer.from(json)), 1)
  return Buffer.concat([head, deflateRawSync(json)]).toString('base64url')
}

async function troubleOf(data: string): Promise<string> {
  const read = await decodeLink(CLINIC_LINK, data)
  if (read.ok) throw new Error('it was read')
  expect(read.sentence).toBe(LINK_SENTENCES[read.because])
  return read.because
}

describe("a clinic's link", () => {
  it('brings back what was put in', async () => {
    const data = await encodeLink(CLINIC_LINK, INVENTED_CLINIC)
    expect(data).toMatch(/^[A-Za-z0-9_-]+$/)
    expect(await decodeLink(CLINIC_LINK, data)).toEqual({ ok: true, value: INVENTED_CLINIC })
  })

  it('is read in the form that is written down here, so that old links stay readable', async () => {
    expect(await decodeLink(CLINIC_LINK, linkOf(JSON.stringify(INVENTED_CLINIC)))).toEqual({
      ok: true,
      value: INVENTED_CLINIC,
    })
  })

  it('says of every cut and of every changed sign that the link is damaged', async () => {
    const data = await encodeLink(CLINIC_LINK, INVENTED_CLINIC)
    for (let at = 0; at < data.length; at += 7) {
      expect((await decodeLink(CLINIC_LINK, data.slice(0, at))).ok, `cut at ${at}`).toBe(false)
      const other = data[at] === 'A' ? 'B' : 'A'
      const changed = `${data.slice(0, at)}${other}${data.slice(at + 1)}`
      expect((await decodeLink(CLINIC_LINK, changed)).ok, `changed at ${at}`).toBe(false)
    }
  })

  it.each([
    ['nothing', '', 'damaged'],
    ['another version', linkOf('{}', 2), 'other-version'],
    ['no JSON', linkOf('{"name":'), 'not-this'],
    ['JSON of something else', linkOf('{"name":"x"}'), 'not-this'],
    ['a field more', linkOf(JSON.stringify({ ...INVENTED_CLINIC, script: 'x' })), 'not-this'],
    ['a name of a prototype', linkOf('{"__proto__":{"name":"x"}}'), 'not-this'],
    ['nesting without end', linkOf('['.repeat(16_000)), 'not-this'],
    ['more than any clinic has', 'A'.repeat(CLINIC_LINK.mostCharacters + 1), 'over-length'],
    ['a bomb', linkOf(' '.repeat(3_000_000)), 'damaged'],
  ])('says in one sentence what is wrong with %s', async (_, data, because) => {
    expect(await troubleOf(data)).toBe(because)
  })

  it('keeps room for the fullest details', async () => {
    const span = { from: '09:00', to: '12:00' }
    const day = { from: '2026-01-01', to: '2026-01-02', spans: [span, span, span, span] }
    const hours = INVENTED_CLINIC.weeklyHours[0]
    if (!hours) throw new Error('no hours')
    // Texts that hardly pack.
    const noise = (length: number) =>
      Array.from({ length }, (_, at) => String.fromCodePoint(0x4e00 + ((at * 7919) % 20_000))).join('')
    const fullest = {
      ...INVENTED_CLINIC,
      name: noise(80),
      address: noise(200),
      speciesSeen: noise(160),
      greeting: [noise(120), noise(119)],
      holidays: Array.from({ length: 60 }, (_, at) => ({
        ...day,
        from: `20${10 + at}-0${1 + (at % 9)}-1${at % 10}`,
      })),
      weeklyHours: Array.from({ length: 28 }, () => hours),
      raised: Array.from({ length: 60 }, (_, at) => ({ concern: `${noise(36)}${at}`, to: 'now' as const })),
    }
    expect(clinicSchema.safeParse(fullest).success).toBe(true)
    expect((await decodeLink(CLINIC_LINK, await encodeLink(CLINIC_LINK, fullest))).ok).toBe(true)
  })
})

describe("a clinic's details", () => {
  const accepts = (change: object) => clinicSchema.safeParse({ ...INVENTED_CLINIC, ...change }).success

  it.each(['+1 (555) 555-0123', '01632 960123', '112', '+44.1632.960199'])(
    'take the number %s',
    telephone => {
      expect(accepts({ telephone })).toBe(true)
    },
  )

  it.each(['', 'no need to phone', '12', '0163296012345678901', 'javascript:1', '01632 960123;ext=1'])(
    'refuse the number "%s"',
    telephone => {
      expect(accepts({ telephone })).toBe(false)
    },
  )

  it.each([
    { name: 'Clinic\nNo need to phone' },
    { name: 'Clinic \u202egnp.exe' },
    { name: '   ' },
    { webPage: 'javascript:alert(1)' },
    { webPage: 'http://clinic.example' },
    { zone: 'Nowhere/Never' },
    { weeklyHours: [{ day: 'monday', from: '9', to: '18:00' }] },
    { greeting: ['one', 'two', 'three'] },
    { raised: [{ concern: 'humming', to: 'home' }] },
    { raised: [{ concern: 'humming', to: 'well' }] },
  ])('refuse %j', change => {
    expect(accepts(change)).toBe(false)
  })
})
