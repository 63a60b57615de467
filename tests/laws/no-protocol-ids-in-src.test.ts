import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'
import { expect, test } from 'vitest'
import { loadProtocol } from '../../src/protocol/load.ts'

/** Every string literal of the TypeScript below a folder, with the file it stands in. */
function stringsBelow(folder: string): { text: string; file: string }[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter(name => /\.tsx?$/.test(name))
    .flatMap(name => {
      const file = join(folder, name)
      const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2022, true)
      const found: { text: string; file: string }[] = []
      const visit = (node: ts.Node): void => {
        if (ts.isStringLiteralLike(node)) found.push({ text: node.text, file })
        ts.forEachChild(node, visit)
      }
      visit(source)
      return found
    })
}

function idsOfTheRealProtocol(): Set<string> {
  const loaded = loadProtocol('content', 'leopard-gecko')
  if (!loaded.ok) throw new Error('the real content has faults: npm run content')
  const { logic } = loaded.compilation.protocol
  const { enclosure } = loaded
  if (!enclosure) throw new Error('the real content has no enclosure.yaml')
  return new Set([
    ...logic.questions.flatMap(({ id, options }) => [id, ...options]),
    ...logic.facts.flatMap(({ id, options }) => [id, ...options]),
    ...logic.rules.map(({ id }) => id),
    ...logic.carePlans.flatMap(({ id, steps, nevers }) => [
      id,
      ...steps.map(one => one.id),
      ...nevers.map(one => one.id),
    ]),
    ...logic.concerns,
    ...enclosure.facts.flatMap(({ id, options }) => [id, ...options]),
    ...enclosure.faults.flatMap(({ id, steps }) => [id, ...steps.map(one => one.id)]),
    ...[...enclosure.quantities, ...enclosure.instruments, ...enclosure.logger.places].map(({ id }) => id),
    ...enclosure.feeding.feeders.map(({ id }) => id),
  ])
}

test('no string in src is a compound id of the real protocol, words of the shared vocabulary excepted', () => {
  // An id of one plain word ("nothing", "also") cannot be told from English; those are left to review.
  const ids = new Set([...idsOfTheRealProtocol()].filter(id => id.includes('-')))
  const vocabulary = new Set(stringsBelow('shared').map(({ text }) => text))
  const hits = stringsBelow('src').filter(({ text }) => ids.has(text) && !vocabulary.has(text))
  // The species folder is named where this build says which animal it is for.
  const naming = /real-protocol\.ts$|protocol-plugin\.ts$/
  expect(hits.filter(({ file, text }) => !(naming.test(file) && text === 'leopard-gecko'))).toEqual([])
})

test('the search finds a compound id where one stands', () => {
  const ids = idsOfTheRealProtocol()
  expect(stringsBelow('tests/laws').some(({ text }) => text.includes('-') && ids.has(text))).toBe(true)
})
