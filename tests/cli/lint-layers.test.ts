import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { inProject } from '../../src/cli/steps/places.mjs'

// One file per import, each in a copy of the project's folders that holds nothing but biome.json and them.
const REFUSED: Record<string, readonly string[]> = {
  'shared/': ['preact', 'node:fs', 'fs', 'yaml', 'xstate', 'zod', '../src/triage/assess.ts'],
  'src/measure/': ['zod/mini', 'preact', 'idb', 'node:fs', '../enclosure/a.ts', '../triage/assess.ts'],
  'src/enclosure/': ['preact', 'idb', 'node:path', '../measure/a.ts', '../triage/assess.ts'],
  'src/triage/': ['preact', 'idb', 'node:os', 'xstate', '../wizard/a.ts', '../protocol/a.ts', 'date-fns'],
  'src/wizard/': ['preact', 'preact/hooks', 'idb', 'node:fs', '../app/a.tsx', '../measure/a.ts'],
  'src/followup/': ['preact', 'idb', 'node:fs', '../wizard/a.ts', '../records/a.ts'],
  'src/records/': ['preact', 'xstate', '../triage/assess.ts', '../app/a.tsx'],
  'src/handover/': ['preact', 'idb', '../triage/assess.ts', '../app/a.tsx'],
  'src/search/': ['preact', 'idb', 'node:fs', '../triage/assess.ts', '../app/a.tsx'],
  'src/app/': ['yaml', 'zod', '../cli/assess.ts', '../../cli/assess.ts'],
}
const ALLOWED: Record<string, readonly string[]> = {
  'shared/': ['zod/mini', './units.ts'],
  'src/measure/': ['../../shared/units.ts', './trend.ts'],
  'src/enclosure/': ['../../shared/units.ts', './range.ts'],
  'src/triage/': [
    '../../shared/units.ts',
    '../measure/a.ts',
    '../enclosure/a.ts',
    '@date-fns/tz/tzOffset',
    './a.ts',
  ],
  'src/wizard/': ['../../shared/units.ts', '../triage/assess.ts', 'xstate', './chart.ts'],
  'src/followup/': ['../../shared/units.ts', '../triage/assess.ts', 'xstate'],
  'src/records/': ['../../shared/units.ts', 'idb', 'papaparse', '@date-fns/tz/tzOffset'],
  'src/handover/': ['../../shared/units.ts', './page.ts'],
  'src/search/': ['../../shared/units.ts', 'minisearch', './words.ts'],
  'src/app/': ['preact', 'idb', '../wizard/chart.ts', '../../../shared/units.ts', '../parts/Gecko.tsx'],
}
const OTHERS: Record<string, { readonly text: string; readonly rule: string }> = {
  'src/triage/clock.ts': { text: 'export const a = Date.now()\n', rule: 'noJsRestrictedProperties' },
  'src/triage/chance.ts': { text: 'export const a = Math.random()\n', rule: 'noJsRestrictedProperties' },
  'src/measure/dom.ts': { text: 'export const a = document.title\n', rule: 'noRestrictedGlobals' },
  'src/triage/round-1.ts': {
    text: "import { b } from './round-2.ts'\n\nexport const a = () => b\n",
    rule: 'noImportCycles',
  },
  'src/triage/round-2.ts': {
    text: "import { a } from './round-1.ts'\n\nexport const b = () => a\n",
    rule: 'noImportCycles',
  },
  'src/triage/any.ts': { text: 'export const a = (b: any) => b\n', rule: 'noExplicitAny' },
  'src/triage/bang.ts': { text: 'export const a = (b: string[]) => b[0]!\n', rule: 'noNonNullAssertion' },
  'src/app/floating.ts': {
    text: "async function save(): Promise<string> {\n  return 'x'\n}\n\nexport function go() {\n  save()\n}\n",
    rule: 'noFloatingPromises',
  },
  'src/triage/switch.ts': {
    text: "type Kind = 'a' | 'b'\n\nexport function go(kind: Kind): number {\n  switch (kind) {\n    case 'a':\n      return 1\n  }\n  return 2\n}\n",
    rule: 'useExhaustiveSwitchCases',
  },
}

type Finding = { readonly file: string; readonly rule: string }

let folder = ''
let findings: Finding[] = []
let exitCode: number | null = null

/** Each refused or allowed import in a file of its own: its path and the import. */
function probes(table: Record<string, readonly string[]>, word: string) {
  return Object.entries(table).flatMap(([layer, specifiers]) =>
    specifiers.map((specifier, at) => ({ file: `${layer}${word}-${at}.ts`, layer, specifier })),
  )
}

function write(file: string, text: string) {
  const path = join(folder, file)
  mkdirSync(dirname(path), { recursive: true })
  writeFileSync(path, text)
}

function lint(): { code: number | null; findings: Finding[] } {
  const biome = inProject('node_modules', '@biomejs', 'biome', 'bin', 'biome')
  const args = [biome, 'lint', '--reporter=rdjson', '--max-diagnostics=none', '.']
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' })
  const report: unknown = JSON.parse(stdout || '{}')
  const { diagnostics } = report as {
    diagnostics?: { code?: { value?: string }; location?: { path?: string } }[]
  }
  if (!diagnostics) throw new Error(`Biome gave no report: ${stderr}`)
  return {
    code: status,
    findings: diagnostics.map(({ code, location }) => ({
      file: (location?.path ?? '').replaceAll('\\', '/').replace(/^\.\//, ''),
      rule: code?.value?.split('/').at(-1) ?? '',
    })),
  }
}

function rulesFor(file: string) {
  return findings.filter(finding => finding.file === file).map(finding => finding.rule)
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'duskcheck-lint-'))
  cpSync(inProject('biome.json'), join(folder, 'biome.json'))
  for (const { file, specifier } of [...probes(REFUSED, 'refused'), ...probes(ALLOWED, 'allowed')])
    write(file, `export * from '${specifier}'\n`)
  for (const [file, { text }] of Object.entries(OTHERS)) write(file, text)
  ;({ code: exitCode, findings } = lint())
}, 60_000)

afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('the layer rules in biome.json', () => {
  test('a bad import makes Biome fail', () => {
    expect(exitCode).not.toBe(0)
  })

  test.each(probes(REFUSED, 'refused'))('$layer may not import $specifier', ({ file }) => {
    expect(rulesFor(file)).toContain('noRestrictedImports')
  })

  test.each(probes(ALLOWED, 'allowed'))('$layer may import $specifier', ({ file }) => {
    expect(rulesFor(file)).not.toContain('noRestrictedImports')
  })

  test.each(Object.entries(OTHERS).map(([file, { rule }]) => ({ file, rule })))(
    '$rule stops $file',
    ({ file, rule }) => {
      expect(rulesFor(file)).toContain(rule)
    },
  )
})
