import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { CONTENT_FOLDER, SPECIES_FOLDER } from '../../src/cli/real-protocol.ts'
import { growthBand } from '../../src/measure/growthBand.ts'
import { loadWeights as load } from '../../src/protocol/weights.ts'
import { realCompiled } from '../laws/real-protocol.ts'

const loadWeights = (folder: string, species: string) => load(folder, species, realCompiled())

const folders: string[] = []
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true })
})

/** A copy of the real content with one change in weights.yaml. */
function changed(from: string, to: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'weights-'))
  folders.push(folder)
  cpSync(CONTENT_FOLDER, folder, { recursive: true })
  const file = join(folder, SPECIES_FOLDER, 'weights.yaml')
  const text = readFileSync(file, 'utf8')
  expect(text).toContain(from)
  writeFileSync(file, text.replace(from, to))
  return folder
}

function faultsOf(folder: string): string[] {
  const loaded = loadWeights(folder, SPECIES_FOLDER)
  return loaded.ok ? [] : loaded.faults.map(({ line, message }) => `${line}: ${message}`)
}

describe('what content says of a weight record', () => {
  it('is read whole', () => {
    const loaded = loadWeights(CONTENT_FOLDER, SPECIES_FOLDER)
    expect(loaded.ok && loaded.weights?.flags.fastLoss).toEqual({ atLeastPercent: 10, withinDays: 14 })
  })

  it('keeps the slow first month of the zoo record inside the band of growth', () => {
    const loaded = loadWeights(CONTENT_FOLDER, SPECIES_FOLDER)
    const growth = loaded.ok ? loaded.weights?.growth : undefined
    expect(growth && growthBand(30, growth)).toEqual({ lowGrams: 4, highGrams: 9.8 })
  })

  it('is refused with its place when a number makes no sense or a row is not there', () => {
    expect(faultsOf(changed('confidence: 0.95', 'confidence: 95'))).toEqual([
      expect.stringContaining('trend.confidence: given: 95'),
    ])
    expect(faultsOf(changed('[systemic-C1, systemic-C3]', '[systemic-C99]'))).toEqual([
      expect.stringMatching(/^\d+: shelf\.signals\.1\.evidence: given: systemic-C99/),
    ])
    expect(faultsOf(changed('source: gaps-sao-paulo-zoo', 'source: nobody'))).toEqual([
      expect.stringContaining('growth.starts.2.source: given: nobody'),
    ])
  })

  it('may be missing for a species that has no weight record', () => {
    expect(loadWeights(CONTENT_FOLDER, 'none')).toEqual({ ok: true, weights: undefined })
  })
})
