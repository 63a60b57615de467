import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const css = readFileSync('src/app/look/tokens.css', 'utf8')

/** The colour tokens of the block that follows `opening`. */
function colours(opening: string): Record<string, string> {
  const start = css.indexOf(opening)
  if (start < 0) throw new Error(`no block ${opening}`)
  const block = css.slice(start, css.indexOf('}', start))
  return Object.fromEntries(
    [...block.matchAll(/(--[a-z0-9-]+): (#[0-9a-f]{6});/g)].map(([, name = '', value = '']) => [name, value]),
  )
}

function brightness(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map(index => {
    const part = Number.parseInt(hex.slice(index, index + 2), 16) / 255
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

function contrast(one: string, other: string): number {
  const [low = 0, high = 0] = [brightness(one), brightness(other)].sort((a, b) => a - b)
  return (high + 0.05) / (low + 0.05)
}

const schemes = {
  dark: colours(':root {'),
  light: colours(':root:not([data-scheme="dark"]) {'),
}
const grounds = ['--ground', '--ground-raised', '--ground-pressed', '--ground-chosen', '--ember-1']

const pairs: { front: string; on: string; atLeast: number }[] = [
  ...grounds.flatMap(on => [
    { front: '--text', on, atLeast: 7 },
    { front: '--text-soft', on, atLeast: 7 },
    { front: '--link', on, atLeast: 7 },
    { front: '--action', on, atLeast: 3 },
    { front: '--ember-3', on, atLeast: 3 },
    { front: '--ember-4', on, atLeast: 3 },
  ]),
  ...['--ground', '--ground-raised', '--ground-pressed', '--ember-1'].map(on => ({
    front: '--line',
    on,
    atLeast: 3,
  })),
  { front: '--on-action', on: '--action', atLeast: 7 },
  { front: '--on-ember', on: '--ember-5', atLeast: 7 },
  { front: '--ember-5', on: '--on-ember', atLeast: 7 },
  { front: '--text', on: '--gecko-skin', atLeast: 3 },
  { front: '--action', on: '--gecko-skin', atLeast: 3 },
  { front: '--gecko-pupil', on: '--gecko-eye', atLeast: 3 },
]

describe.each(Object.entries(schemes))('%s', (_name, tokens) => {
  test.each(pairs)('$front on $on is $atLeast:1 or more', ({ front, on, atLeast }) => {
    const [one, other] = [tokens[front], tokens[on]]
    if (one === undefined || other === undefined) throw new Error(`no token ${front} or ${on}`)
    expect(contrast(one, other)).toBeGreaterThanOrEqual(atLeast)
  })
})

test('the chosen light scheme is the system one', () => {
  expect(colours(':root[data-scheme="light"] {')).toEqual(schemes.light)
  expect(Object.keys(schemes.light)).toEqual(Object.keys(schemes.dark))
})

test('no text is smaller than 18 px', () => {
  const sizes = [...css.matchAll(/--type-[a-z]+: (?:clamp\()?([\d.]+)rem/g)].map(([, size]) => Number(size))
  expect(sizes.length).toBeGreaterThan(4)
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(1.125)
})
