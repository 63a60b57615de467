import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, expect, it } from 'vitest'
import { CONTENT_FOLDER, SPECIES_FOLDER } from '../../src/cli/real-protocol.ts'
import { faultLine } from '../../src/protocol/fault.ts'
import { loadProtocol } from '../../src/protocol/load.ts'
import { INVENTED } from '../protocol/invented.ts'

const folders: string[] = []
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true })
})

function content(folder: string) {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'content', folder], { encoding: 'utf8' })
}

it('prints the counts as one JSON line when nothing is wrong', () => {
  const { status, stdout, stderr } = content(INVENTED)
  expect(stderr).toBe('')
  expect(status).toBe(0)
  expect(stdout.trim().split('\n')).toHaveLength(1)
  expect(JSON.parse(stdout)).toMatchObject({
    species: 'dune-skink',
    rules: 10,
    evidenceRows: 6,
    evidenceRowsUsed: 5,
    evidenceRowsLeftOut: 1,
  })
})

it('prints each fault with file, line and column on stderr and ends with code 1', () => {
  const folder = mkdtempSync(join(tmpdir(), 'content-'))
  folders.push(folder)
  cpSync(INVENTED, folder, { recursive: true })
  const file = join(folder, 'left-out.yaml')
  writeFileSync(file, readFileSync(file, 'utf8').replace('[row-X1]', '[row-X1, row-X2, row-X3]'))
  const { status, stdout, stderr } = content(folder)
  expect(status).toBe(1)
  expect(stdout).toBe('')
  expect(stderr.trim().split('\n')).toEqual([
    'left-out.yaml:1:18 left out: given: row-X2; accepted: a row of evidence.yaml',
    'left-out.yaml:1:26 left out: given: row-X3; accepted: a row of evidence.yaml',
  ])
})

it('the content of this checkout has no fault, and checking it leaves room in two seconds', () => {
  const took = [1, 2].map(() => {
    const begun = performance.now()
    const loaded = loadProtocol(CONTENT_FOLDER, SPECIES_FOLDER)
    expect(loaded.ok ? [] : loaded.faults.map(faultLine)).toEqual([])
    return performance.now() - begun
  })
  expect(Math.min(...took)).toBeLessThan(1500)
})
