import { spawnSync } from 'node:child_process'
import { expect, it } from 'vitest'
import { compiledProtocolSchema } from '../../shared/compiled-schema.ts'
import { loadProtocol } from '../../src/protocol/load.ts'
import { DUNE_SKINK, INVENTED } from '../protocol/invented.ts'

function schema(...words: string[]) {
  return spawnSync(process.execPath, ['src/cli/run.mjs', 'schema', ...words], { encoding: 'utf8' })
}

it.each([
  ['case', 'answers'],
  ['assessment', 'reasons'],
  ['protocol', 'logic'],
  ['backup', 'entries'],
])('prints the JSON Schema of %s', (name, property) => {
  const { status, stdout } = schema(name)
  expect(status).toBe(0)
  const printed = JSON.parse(stdout)
  expect(printed).toMatchObject({
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    type: 'object',
    additionalProperties: false,
  })
  expect(printed.properties).toHaveProperty(property)
})

it('asks nothing of a case file', () => {
  expect(JSON.parse(schema('case').stdout).required ?? []).toEqual([])
})

it.each([
  [['weather'], 'weather'],
  [[], 'nothing'],
])('refuses %j', (words, given) => {
  const { status, stdout, stderr } = schema(...words)
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toBe(
    `schema: given: ${given}; accepted: case, assessment, condition, protocol, backup, handover, clinic, enclosure\n`,
  )
})

it('describes a compiled protocol as it is', () => {
  const loaded = loadProtocol(INVENTED, DUNE_SKINK)
  const protocol = loaded.ok ? loaded.compilation.protocol : undefined
  expect(compiledProtocolSchema.safeParse(JSON.parse(JSON.stringify(protocol))).error).toBeUndefined()
})
