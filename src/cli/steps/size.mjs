import { readFileSync } from 'node:fs'
import { extname, relative } from 'node:path'
import { brotliCompressSync, gzipSync } from 'node:zlib'
import { buildIfNeeded, filesBelow } from './build.mjs'
import { faultsOf, figuresOf } from './journeys.mjs'
import { DIST } from './places.mjs'

/** @typedef {{ name: string, bytes: number, gzip: number, brotli: number }} Size */

/**
 * The size of one file as it is, and as hosts send it.
 *
 * @param {string} name
 * @param {Uint8Array} content
 * @returns {Size}
 */
export function sizeOf(name, content) {
  return {
    name,
    bytes: content.byteLength,
    gzip: gzipSync(content, { level: 9 }).byteLength,
    brotli: brotliCompressSync(content).byteLength,
  }
}

/** @param {Size} size */
function row({ name, bytes, gzip, brotli }) {
  const columns = [bytes, gzip, brotli].map(number => String(number).padStart(10))
  return `${columns.join('')}  ${name}`
}

/** @param {import('./journeys.mjs').Figure} figure */
function journeyRow({ name, bytes, most, what }) {
  const budget = most === undefined ? '' : `of ${most}`
  return `${String(bytes).padStart(8)} ${budget.padEnd(9)}  ${name.padEnd(24)} ${what}`
}

/**
 * The sizes by journey, and what is wrong with them.
 *
 * @returns {Promise<number>} exit code
 */
export async function journeys() {
  await buildIfNeeded()
  const figures = figuresOf(DIST)
  const faults = faultsOf(DIST, figures)
  process.stdout.write(`${[...figures.map(journeyRow), ...faults].join('\n')}\n`)
  return faults.length === 0 ? 0 : 1
}

/**
 * `npm run size`: every file of the build in bytes, the sums by kind, then the sizes by journey against their budgets.
 *
 * @returns {Promise<number>} exit code
 */
export async function size() {
  await buildIfNeeded()
  const sizes = filesBelow(DIST).map(file => sizeOf(relative(DIST, file), readFileSync(file)))
  /** @type {Map<string, Size>} */
  const sums = new Map()
  for (const one of sizes) {
    for (const name of [`all ${extname(one.name) || 'without ending'}`, 'all']) {
      const sum = sums.get(name) ?? { name, bytes: 0, gzip: 0, brotli: 0 }
      sums.set(name, {
        name,
        bytes: sum.bytes + one.bytes,
        gzip: sum.gzip + one.gzip,
        brotli: sum.brotli + one.brotli,
      })
    }
  }
  const bySize = [...sizes].sort((a, b) => b.brotli - a.brotli)
  const sumRows = [...sums.values()].sort((a, b) => a.brotli - b.brotli)
  const head = `${['bytes', 'gzip', 'brotli'].map(word => word.padStart(10)).join('')}  file`
  process.stdout.write(`${[head, ...bySize.map(row), ...sumRows.map(row)].join('\n')}\n\n`)
  return journeys()
}
