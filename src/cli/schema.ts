import * as z from 'zod/mini'
import { assessmentSchema } from '../../shared/assessment.ts'
import { backupSchema } from '../../shared/backup.ts'
import { caseFileSchema } from '../../shared/case-file.ts'
import { clinicSchema } from '../../shared/clinic.ts'
import { compiledProtocolSchema } from '../../shared/compiled-schema.ts'
import { conditionFileSchema } from '../../shared/condition.ts'
import { enclosureInputSchema } from '../../shared/enclosure-input.ts'
import { handoverSchema } from '../../shared/handover.ts'

// `npm run -s schema -- NAME`: prints the JSON Schema of what goes in, of what comes out, of the compiled protocol, of
// the file that holds a keeper's record, of readings of an enclosure, or of what a clinic receives or says of itself.
// An unknown name ends with code 2.
const SCHEMAS: Readonly<Record<string, { schema: z.ZodMiniType; io: 'input' | 'output' }>> = {
  // A case file is described as a person writes it, with defaults left out.
  case: { schema: caseFileSchema, io: 'input' },
  assessment: { schema: assessmentSchema, io: 'output' },
  condition: { schema: conditionFileSchema, io: 'input' },
  protocol: { schema: compiledProtocolSchema, io: 'output' },
  backup: { schema: backupSchema, io: 'input' },
  handover: { schema: handoverSchema, io: 'input' },
  clinic: { schema: clinicSchema, io: 'input' },
  enclosure: { schema: enclosureInputSchema, io: 'input' },
}

const name = process.argv[2]
const wanted = name !== undefined && Object.hasOwn(SCHEMAS, name) ? SCHEMAS[name] : undefined
if (wanted) {
  process.stdout.write(`${JSON.stringify(z.toJSONSchema(wanted.schema, { io: wanted.io }), null, 2)}\n`)
} else {
  process.stderr.write(`schema: given: ${name ?? 'nothing'}; accepted: ${Object.keys(SCHEMAS).join(', ')}\n`)
  process.exitCode = 2
}
