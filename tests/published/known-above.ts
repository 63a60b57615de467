import type { Urgency } from '../../shared/urgency.ts'

/**
 * Published cases that come out more urgent than their source allows, with what came out and why it was
 * left so. None comes out less urgent than its source allows. A case goes from this list when a rule or
 * question changes for the sake of its own evidence.
 */
export const KNOWN_ABOVE: Readonly<Record<string, { readonly got: Urgency; readonly because: string }>> = {
  PX55: {
    got: 'week',
    because:
      'Nothing is told of the shape, so the look at tail and hips is "cannot tell", and what could be a wasted animal keeps its floor of a week. An owner who sees a filled-out tail gets home.',
  },
  PX60: {
    got: 'day',
    because:
      'A cut with the tip about to fall off is answered as torn and hanging; the evidence row asks for a day. The source is a volunteer, not a vet, and the vets’ row is followed.',
  },
  PX61: {
    got: 'week',
    because:
      'Nothing is told of the rest of the list about the shed, so a large raw place cannot be told either and keeps its floor of a week. An owner who has looked and seen none gets home.',
  },
  PX64: {
    got: 'day',
    because:
      'A belly that only looks swollen has no milder option than soft and swollen as if full of water, for which the evidence row asks a day. The vet found a healthy animal.',
  },
}
