import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const FOLDER = 'src/app/record'
const files = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' }).map(name => `${FOLDER}/${name}`)
const read = (path: string): string => readFileSync(path, 'utf8')
const own = read(`${FOLDER}/record.css`)
const known = [own, read('src/app/look/screens.css'), read('src/app/look/base.css')].join('\n')
const screens = files.filter(path => path.endsWith('.tsx'))

test('every class a screen of the record uses has a style', () => {
  const used = screens.flatMap(path =>
    [...read(path).matchAll(/class(?:=|: )"([^"]+)"/g)].flatMap(([, names = '']) => names.split(' ')),
  )
  expect(used.length).toBeGreaterThan(40)
  expect(used.filter(name => !known.includes(`.${name}`))).toEqual([])
})

test('every class of the record’s own style is used', () => {
  const all = screens.map(read).join('\n')
  const styled = new Set(
    [...own.replace(/\/\*.*?\*\//gs, '').matchAll(/\.([a-z][a-z-]*)/g)].map(([, name = '']) => name),
  )
  const others = read('src/app/look/screens.css')
  expect(
    [...styled].filter(
      name => !others.includes(`.${name}`) && !new RegExp(`['"\`\\s]${name}['"\`\\s]`).test(all),
    ),
  ).toEqual([])
})

test('colours stand in the tokens, nothing moves, nothing comes from elsewhere', () => {
  expect(own).not.toMatch(/#[0-9a-f]{3,8}\b|rgb|hsl|oklch/i)
  expect(own).not.toMatch(/transition|animation|@keyframes|@import|url\(/)
})

test('no inline style and no markup from text', () => {
  expect(
    files.filter(path => /\.tsx?$/.test(path) && /style=|innerHTML|dangerouslySet/.test(read(path))),
  ).toEqual([])
})

test('no word that says how it feels, and none for the telephone but phone', () => {
  const words = screens
    .concat(files.filter(path => /(?:say|words|condition)\.ts$/.test(path)))
    .map(read)
    .join('\n')
  expect(words).not.toMatch(/\b(?:bright|dull|lively|lethargic|limp|ring up|call a)\b/i)
})
