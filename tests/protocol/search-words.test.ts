import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { faultLine } from '../../src/protocol/fault.ts'
import { loadSearchWords } from '../../src/protocol/search-words.ts'
import { protocol } from '../search/vocabulary.ts'

const file = join('leopard-gecko', 'search-words.yaml')
const written = readFileSync(join(import.meta.dirname, '../../content', file), 'utf8')
const folder = mkdtempSync(join(tmpdir(), 'search-words-'))
cpSync(join(import.meta.dirname, '../../content', file), join(folder, file))
afterAll(() => rmSync(folder, { recursive: true }))

/** The faults of the file with one place changed. */
function faultsOf(from: string, to: string): string[] {
  expect(written).toContain(from)
  writeFileSync(join(folder, file), written.replace(from, to))
  const loaded = loadSearchWords(folder, 'leopard-gecko', protocol.frame)
  return loaded.ok ? [] : loaded.faults.map(faultLine)
}

test('the words as they are have no fault', () => {
  expect(faultsOf('# How', '# How')).toEqual([])
})

test.each([
  ['an unknown concern', 'concern: lump', 'concern: lumps', /concern: given: lumps; accepted: not-eating, /],
  ['a concern without words', 'concern: lump', 'concern: lumps', /concerns: lump has no words/],
  [
    'an unknown danger screen',
    'screen: look-harm',
    'screen: look-far',
    /screen: given: look-far; accepted: look-/,
  ],
  ['a phrase that stands twice', '- wart\n', '- Boil\n', /phrases: given: Boil; accepted: each once/],
  [
    'a concern that stands twice',
    'concern: lump',
    'concern: eye',
    /concern: given: eye; accepted: each once/,
  ],
  [
    'an unknown door of a part',
    'doors: [balance,',
    'doors: [ballance,',
    /doors: given: ballance; accepted: /,
  ],
  [
    'a door of a part twice',
    'doors: [balance, lump',
    'doors: [balance, balance',
    /doors: given: balance; accepted: each once/,
  ],
  [
    'an unknown last door',
    'nothingFound: something-else',
    'nothingFound: nothing',
    /nothingFound: given: nothing; /,
  ],
  ['a field that is not known', 'nothingFound:', 'nothingfound:', /nothingfound/],
])('%s is refused with its place', (_what, from, to, message) => {
  const faults = faultsOf(from, to)
  expect(faults.join('\n')).toMatch(message)
  for (const line of faults) expect(line).toMatch(/^leopard-gecko\/search-words\.yaml:\d+:\d+ /)
})

test('a species without the file has none', () => {
  expect(loadSearchWords(folder, 'dune-skink', protocol.frame)).toEqual({ ok: true, searchWords: undefined })
})
