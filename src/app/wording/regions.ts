import type { RegionName } from '../drawing/geckoOutline.ts'

/**
 * Which places of the drawing an option speaks of, read from its own words, so that the drawing needs no ids of
 * any protocol. A phrase that was matched is taken out before the next is tried: "opening under the tail" is no tail.
 */
const places: readonly (readonly [RegExp, readonly RegionName[]])[] = [
  [/opening under the tail|under the tail/gi, ['region-vent']],
  [/tips? of the tail|tail tips?/gi, ['region-tail-tip']],
  [/base of the tail|tail base/gi, ['region-tail-base']],
  [
    /\btoes?\b|\bfeet\b|\bfoot\b/gi,
    ['region-toes-front-left', 'region-toes-front-right', 'region-toes-hind-left', 'region-toes-hind-right'],
  ],
  [/\beyes?\b|\blids?\b/gi, ['region-eye-left', 'region-eye-right']],
  [/\bnostrils?\b|\bnose\b/gi, ['region-nostrils']],
  [/\blips?\b|\bmouth\b/gi, ['region-mouth']],
  [/\bface\b|\bhead\b/gi, ['region-head']],
  [/\bneck\b|\bthroat\b/gi, ['region-neck']],
  [/\bbelly\b/gi, ['region-belly']],
  [/\bback\b/gi, ['region-back']],
  [
    /\blegs?\b/gi,
    ['region-leg-front-left', 'region-leg-front-right', 'region-leg-hind-left', 'region-leg-hind-right'],
  ],
  [/\btail\b/gi, ['region-tail']],
]

export function regionsIn(text: string): RegionName[] {
  let left = text
  return places.flatMap(([pattern, regions]) => {
    const without = left.replace(pattern, ' ')
    const matched = without !== left
    left = without
    return matched ? [...regions] : []
  })
}
