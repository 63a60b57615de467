import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const folders = ['src/app/look', 'src/app/parts', 'src/app/drawing']
const files = folders.flatMap(folder => readdirSync(folder).map(name => `${folder}/${name}`))
const read = (path: string): string => readFileSync(path, 'utf8')
const screens = read('src/app/look/screens.css')
const header = screens.slice(0, screens.indexOf('*/'))
const styles = files.filter(path => path.endsWith('.css'))
const components = files.filter(path => path.endsWith('.tsx') && !path.includes('examples'))

test('every class in screens.css is listed at its top, and every listed one exists', () => {
  const used = new Set([...screens.matchAll(/\.([a-z][a-z-]*)/g)].map(([, name]) => name))
  const listed = new Set(
    header
      .split('\n')
      .filter(line => /^ \* ( {11}|[A-Z])/.test(line) && line.includes('  '))
      .flatMap(line => line.slice(14).split(/\s+/))
      .filter(word => /^[a-z]+(-[a-z]+)*$/.test(word)),
  )
  expect([...used].filter(name => !listed.has(name ?? ''))).toEqual([])
})

test('every class a part uses has a style', () => {
  const known = [screens, read('src/app/look/base.css'), read('src/app/look/sheet.css')].join('\n')
  const used = components.flatMap(path =>
    [...read(path).matchAll(/class="([^"]+)"/g)].flatMap(([, names = '']) => names.split(' ')),
  )
  expect(used.length).toBeGreaterThan(40)
  expect(used.filter(name => !known.includes(`.${name}`))).toEqual([])
})

test('colours stand in the tokens only', () => {
  const others = styles.filter(path => !/tokens|print/.test(path))
  expect(others.filter(path => /#[0-9a-f]{3,8}\b|rgb|hsl|oklch/i.test(read(path)))).toEqual([])
})

test('nothing moves, nothing comes from elsewhere', () => {
  expect(styles.filter(path => /transition|animation|@keyframes|@import|url\(/.test(read(path)))).toEqual([])
})

test('no inline style and no markup from text', () => {
  expect(files.filter(path => /style=|innerHTML|dangerouslySet/.test(read(path)))).toEqual([])
})
