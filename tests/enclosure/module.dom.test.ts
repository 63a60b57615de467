import enclosure from 'virtual:protocol/enclosure'
import logic from 'virtual:protocol/logic'
import { expect, it } from 'vitest'

it('the check stands in a module of its own, and the logic of the triage holds none of it', () => {
  expect(enclosure.faults.length).toBeGreaterThan(20)
  expect(enclosure.items.length).toBeGreaterThan(30)
  const text = JSON.stringify(logic)
  for (const { id } of enclosure.faults) expect(text).not.toContain(`"${id}"`)
})

it('holds every source that it cites', () => {
  const cited = enclosure.quantities.flatMap(({ rows }) => rows.map(({ source }) => source))
  for (const id of cited) expect(enclosure.sources[id]?.title).toBeTruthy()
  for (const { evidence } of enclosure.faults)
    for (const row of evidence) expect(enclosure.evidence[row]?.sources).toBeDefined()
})
