import type { Path } from '../documents.ts'
import { questionsInOrder } from '../facts.ts'
import type { EnclosureChecking } from './check.ts'
import { CITING } from './claims.ts'

function twice(ids: readonly string[], say: (at: number, id: string) => void): void {
  const seen = new Set<string>()
  ids.forEach((id, at) => {
    if (seen.has(id)) say(at, id)
    seen.add(id)
  })
}

/** Every source cited by itself, not through a row of evidence, with its place. */
function citations({ home, feeders }: EnclosureChecking): { id: string; path: Path; ofFeeders: boolean }[] {
  const found: { id: string; path: Path; ofFeeders: boolean }[] = []
  const visit = (value: unknown, key: string, path: Path, ofFeeders: boolean): void => {
    if (Array.isArray(value))
      for (const [at, one] of value.entries()) visit(one, key, [...path, at], ofFeeders)
    else if (typeof value === 'object' && value !== null)
      for (const [name, one] of Object.entries(value)) visit(one, name, [...path, name], ofFeeders)
    else if (typeof value === 'string' && CITING.has(key)) found.push({ id: value, path, ofFeeders })
  }
  visit(home, '', [], false)
  visit(feeders, '', [], true)
  return found
}

/** Items that are also questions of the protocol, so that one answer serves both, are of one form. */
function checkSharedQuestions({ source, home, say }: EnclosureChecking): void {
  const questions = new Map(questionsInOrder(source).map(one => [one.source.id, one.source]))
  home.items.forEach((item, at) => {
    const question = questions.get(item.id)
    if (!question) return
    const form = (one: typeof item | typeof question) =>
      JSON.stringify([one.kind, one.unit, one.from, one.to, (one.options ?? []).map(({ id }) => id)])
    if (form(item) !== form(question))
      say(
        ['items', at, 'id'],
        `${item.id}: differs from the question of that name; accepted: the same kind, unit, range and options`,
      )
  })
}

function checkItems({ home, say }: EnclosureChecking): void {
  const groups = home.groups.map(({ id }) => id)
  home.items.forEach((item, at) => {
    const path = ['items', at]
    if (!groups.includes(item.group))
      say([...path, 'group'], `${item.id}: group: given: ${item.group}; accepted: ${groups.join(', ')}`)
    if (
      item.kind === 'amount' &&
      (item.unit === undefined || item.from === undefined || item.to === undefined)
    )
      say([...path, 'kind'], `${item.id}: amount needs unit, from and to`)
    if ((item.kind === 'choice' || item.kind === 'several') && !item.options?.length)
      say([...path, 'kind'], `${item.id}: ${item.kind} needs options`)
  })
}

/** Roles, quantities and logger places name items, options and quantities that are there. */
function checkRoles({ home, say }: EnclosureChecking): void {
  const items = new Map(home.items.map(item => [item.id, item]))
  const { roles } = home
  const mustBeItem = (key: string, id: string) => {
    if (!items.has(id)) say(['roles', key], `${key}: given: ${id}; accepted: the id of an item`)
  }
  const { temperatureAt, insideHide, uvLamps, noUvLamps, uvBarred, rarely, always, ...single } = roles
  for (const [key, id] of Object.entries(single)) mustBeItem(key, id)
  for (const id of Object.values(temperatureAt)) mustBeItem('temperatureAt', id)
  const mustBeOption = (key: string, item: string, options: readonly string[]) => {
    const known = (items.get(item)?.options ?? []).map(({ id }) => id)
    for (const id of options)
      if (!known.includes(id))
        say(['roles', key], `${key}: given: ${id}; accepted: an option of ${item}: ${known.join(', ')}`)
  }
  mustBeOption('temperatureAt', roles.humidityPlace, Object.keys(temperatureAt))
  mustBeOption('insideHide', roles.humidityPlace, [insideHide])
  mustBeOption('uvLamps', roles.uvLamp, uvLamps)
  mustBeOption('noUvLamps', roles.uvLamp, noUvLamps)
  mustBeOption('uvBarred', roles.uvWay, uvBarred)
  for (const item of [roles.withD3, roles.withoutD3]) {
    mustBeOption('rarely', item, rarely)
    mustBeOption('always', item, always)
  }
  const instruments = home.instruments.map(({ id }) => id)
  home.quantities.forEach((quantity, at) => {
    const kinds = items.get(quantity.measuredWith ?? '')?.options
    if (quantity.measuredWith !== undefined && !kinds)
      say(
        ['quantities', at, 'measuredWith'],
        `${quantity.id}: measuredWith: given: ${quantity.measuredWith}; accepted: an item with kinds of instruments`,
      )
    for (const { id } of kinds ?? [])
      if (!instruments.includes(id))
        say(
          ['quantities', at, 'measuredWith'],
          `${quantity.id}: ${id} is no instrument; accepted: ${instruments.join(', ')}`,
        )
  })
  const quantities = home.quantities.map(({ id }) => id)
  home.logger.places.forEach((place, at) => {
    for (const key of ['day', 'night', 'humidity'] as const) {
      const id = place[key]
      if (id !== undefined && !quantities.includes(id))
        say(
          ['logger', 'places', at, key],
          `${place.id}: ${key}: given: ${id}; accepted: a quantity: ${quantities.join(', ')}`,
        )
    }
  })
}

/** Ids are unique, whatever is named exists, and an item shared with the protocol is the same question. */
export function checkEnclosureNames(checking: EnclosureChecking): void {
  const { source, home, feeders, say, sayOfFeeders } = checking
  twice(
    [...home.items, ...home.findings].map(({ id }) => id),
    (_, id) => say(['items'], `${id}: named twice; accepted: each item and finding once`),
  )
  twice(
    home.faults.map(({ id }) => id),
    (at, id) => say(['faults', at, 'id'], `${id}: named twice; accepted: each fault once`),
  )
  twice(
    feeders.feeders.map(({ id }) => id),
    (at, id) => sayOfFeeders(['feeders', at, 'id'], `${id}: named twice; accepted: each feeder once`),
  )
  const sources = new Set(source.sources.value.map(({ id }) => id))
  for (const { id, path, ofFeeders } of citations(checking))
    if (!sources.has(id))
      (ofFeeders ? sayOfFeeders : say)(path, `source: given: ${id}; accepted: an id of sources.yaml`)
  checkItems(checking)
  checkRoles(checking)
  checkSharedQuestions(checking)
}
