import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { CONTENT_FOLDER, SPECIES_FOLDER } from '../../src/cli/real-protocol.ts'
import { loadHandover } from '../../src/protocol/handover.ts'
import { realCompiled } from '../laws/real-protocol.ts'

const folders: string[] = []
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true })
})

/** The faults of a copy of the content with one change in handover.yaml. */
function faultsAfter(from: string, to: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'handover-'))
  folders.push(folder)
  cpSync(join(CONTENT_FOLDER, SPECIES_FOLDER), join(folder, SPECIES_FOLDER), { recursive: true })
  const file = join(folder, SPECIES_FOLDER, 'handover.yaml')
  const text = readFileSync(file, 'utf8')
  expect(text).toContain(from)
  writeFileSync(file, text.replace(from, to))
  const loaded = loadHandover(folder, SPECIES_FOLDER, realCompiled())
  return loaded.ok ? '' : loaded.faults.map(({ line, message }) => `${line}: ${message}`).join('\n')
}

describe('what content says of the page for a clinic', () => {
  it('is read whole, every id in it being one of the protocol', () => {
    const loaded = loadHandover(CONTENT_FOLDER, SPECIES_FOLDER, realCompiled())
    expect(loaded.ok && loaded.handover?.sections[0]?.id).toBe('sign')
  })

  it.each([
    ['told: [concern,', 'told: [wings,', 'given: wings; accepted: a question of the protocol'],
    ['questions: [eye-look,', 'questions: [concern, eye-look,', 'a question that stands in one section'],
    ['[vet-as-expected,', '[vet-with-wings,', 'already-done: vet-with-wings; accepted: an option'],
    ['rules: [another-one-ill,', 'rules: [wings,', 'given: wings; accepted: a rule of the protocol'],
    ['sources: [acute-95]', 'sources: [wings]', 'given: wings; accepted: a source of sources.yaml'],
    ['sources: [acute-95]', 'sources: []', 'given: published; accepted: at least one source'],
    ['id: heat-failed', 'id: humidity', 'given: humidity; accepted: an id that is used once'],
  ])('is refused with "%s" as "%s"', (from, to, fault) => {
    const faults = faultsAfter(from, to)
    expect(faults).not.toBe('')
    expect(faults).toContain(fault)
  })
})
