import * as z from 'zod/mini'
import { instant } from './moment.ts'

/**
 * What was seen and measured of one animal's condition, as a person or a clinic writes it: the input of
 * `npm run condition`. Steps run from 1, wasted, over 3, good, to 5, obese.
 */

const look = z.literal([1, 2, 3, 4, 5, 'saysNothing', 'cantTell'])
const millimetres = z.number().check(z.gt(0), z.maximum(400))

export const conditionFileSchema = z.strictObject({
  name: z.optional(z.string()),
  seen: z.optional(
    z.strictObject({
      looks: z.strictObject({
        tail: z.exactOptional(look),
        hipsAndSpine: z.exactOptional(look),
        flanksAndThighs: z.exactOptional(look),
        forelegPads: z.exactOptional(look),
      }),
      tail: z._default(z.enum(['original', 'regrown', 'lost', 'unknown']), 'unknown'),
      gravid: z._default(z.boolean(), false),
    }),
  ),
  tailMillimetres: z.optional(millimetres),
  neckMillimetres: z.optional(millimetres),
  measured: z._default(
    z.array(
      z.strictObject({
        at: instant,
        massGrams: z.number().check(z.gt(0), z.maximum(500)),
        lengthMillimetres: z.number().check(z.minimum(20), z.maximum(250)),
      }),
    ),
    [],
  ),
  tailLostAt: z.optional(instant),
  lengthErrorMillimetres: z._default(z.number().check(z.minimum(0), z.maximum(10)), 3),
})
