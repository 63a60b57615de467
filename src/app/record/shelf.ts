import type { Moment } from '../../../shared/moment.ts'
import type { AnimalRecord } from '../../../shared/record.ts'
import { type Shelf, shelf } from '../../measure/shelf.ts'
import { levelBy, type Room } from './keeper.ts'

/** Every animal of the record as a shelf; its rows and signals name animals by their `animalId`. */
export function shelfOf(
  { record, content }: Room,
  now: Moment,
): { shelf: Shelf; byId: Map<string, AnimalRecord> } {
  const byId = new Map(record.animals.map(kept => [kept.animalId, kept]))
  const animals = record.animals.map(({ animalId, animal, weighIns, events }) => ({
    name: animalId,
    place: animal.place,
    hatchedOn: animal.hatchedOn,
    weighIns,
    events,
  }))
  const policy = {
    weight: content.policy,
    grid: content.grid,
    grownFromDays: content.grownFromDays,
    ...content.shelf,
  }
  const levelOf = ({ name }: { readonly name: string }) => {
    const kept = byId.get(name)
    return kept && levelBy(kept, content, now)
  }
  return { shelf: shelf(animals, policy, now, levelOf), byId }
}
