import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { FOREIGN, faultsOf, figuresOf } from '../../src/cli/steps/journeys.mjs'

let dist = ''
const put = (file: string, text: string) => writeFileSync(join(dist, file), text)
const bytes = (name: string) => figuresOf(dist).find(figure => figure.name === name)?.bytes ?? 0

beforeEach(() => {
  dist = mkdtempSync(join(tmpdir(), 'journeys-'))
  mkdirSync(join(dist, 'assets'))
  put('index.html', '<script type="module" src="./assets/index.js"></script>')
  put('assets/index.js', 'import{a}from"./part.js";a(()=>import("./later.js"))')
  put('assets/part.js', 'export const a=1')
  put('assets/later.js', 'export const later="later"')
  put('assets/content-words.js', 'export default "words"')
  put('service-worker.js', 'x'.repeat(10))
})
afterEach(() => rmSync(dist, { recursive: true }))

test('the first load is the script of the page and all that it needs to run, and nothing fetched later', () => {
  const before = bytes('js.initial.brotliBytes')
  put('assets/later.js', 'export const later="much later, and longer"')
  expect(bytes('js.initial.brotliBytes')).toBe(before)
  put('assets/part.js', 'export const a="longer than it was before"')
  expect(bytes('js.initial.brotliBytes')).toBeGreaterThan(before)
})

test('content and the service worker are not among the scripts', () => {
  const before = bytes('js.owner.brotliBytes')
  put('assets/content-words.js', 'export default "other and longer words"')
  put('service-worker.js', 'abcdefghijklmnopqrstuvwxyz')
  expect(bytes('js.owner.brotliBytes')).toBe(before)
  put('assets/later.js', 'export const later="much later, and longer"')
  expect(bytes('js.owner.brotliBytes')).toBeGreaterThan(before)
})

test("the keeper's record is counted apart from the owner's way to an outcome", () => {
  const owner = bytes('js.owner.brotliBytes')
  const both = bytes('js.ownerWithRecord.brotliBytes')
  put('assets/record-a1.js', 'export const record="weights of years"')
  expect(bytes('js.owner.brotliBytes')).toBe(owner)
  expect(bytes('js.ownerWithRecord.brotliBytes')).toBeGreaterThan(both)
})

test('the search has a figure of its own', () => {
  const before = bytes('js.owner.brotliBytes')
  put('assets/find-doors-abc.js', 'export const find="found"')
  expect(bytes('js.owner.brotliBytes')).toBe(before)
  expect(bytes('js.search.brotliBytes')).toBeGreaterThan(0)
})

test('a script over its budget is a fault', () => {
  expect(faultsOf(dist, figuresOf(dist))).toEqual([])
  const over = [{ name: 'js.initial', bytes: 11, most: 10, what: '' }]
  expect(faultsOf(dist, over)).toEqual(['js.initial: given: 11; accepted: at most 10'])
})

test('the YAML parser and zod are faults, and their names are still those of the libraries', () => {
  put('assets/later.js', 'class YAMLParseError {} make(a._zod.def)')
  expect(faultsOf(dist, [])).toEqual([
    expect.stringContaining('assets/later.js: holds YAMLParseError'),
    expect.stringContaining('assets/later.js: holds _zod'),
  ])
  const [yaml, zod] = FOREIGN
  const library = (file: string) => readFileSync(join('node_modules', file), 'utf8')
  expect(library('yaml/browser/dist/errors.js')).toMatch(yaml!)
  expect(library('zod/v4/core/core.js')).toMatch(zod!)
})

test('desk work is counted by itself, and may not be needed on the way of an owner', () => {
  const owner = bytes('js.owner.brotliBytes')
  put('assets/desk-shelf.js', 'import{a}from"./part.js";a("shelf")')
  expect(bytes('js.owner.brotliBytes')).toBe(owner)
  expect(bytes('js.desk.brotliBytes')).toBeGreaterThan(0)
  put('assets/later.js', 'a(()=>import("./desk-shelf.js"))')
  expect(faultsOf(dist, [])).toEqual([])
  put('assets/later.js', 'import"./desk-shelf.js"')
  expect(faultsOf(dist, [])).toEqual(['assets/later.js: needs assets/desk-shelf.js, which is desk work'])
})
