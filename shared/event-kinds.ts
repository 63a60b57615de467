/** What may happen to an animal; apart from the schemas, so that a screen can list it without them. */
export const EVENT_KINDS = [
  'tail-lost',
  'eggs-laid',
  'shed',
  'meal',
  'dropping',
  'loose-droppings',
  'new-home',
  'winter-rest-began',
  'winter-rest-ended',
  'treated',
  'died',
] as const
