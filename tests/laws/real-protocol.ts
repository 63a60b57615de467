import { fileURLToPath } from 'node:url'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { compile } from '../../src/protocol/compile.ts'
import { type ContentFault, faultLine } from '../../src/protocol/fault.ts'
import { readSource } from '../../src/protocol/source.ts'
import { type Protocol, prepare } from '../../src/triage/prepare.ts'

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url))
let compiled: CompiledProtocol | undefined
let prepared: Protocol | undefined

/** The compiled protocol of content/leopard-gecko. */
export function realCompiled(): CompiledProtocol {
  if (compiled) return compiled
  // The cross-checks of the content have tests of their own; here it is enough that it compiles.
  const faults: ContentFault[] = []
  const source = readSource(CONTENT, 'leopard-gecko', faults)
  const compilation = source ? compile(source, faults) : undefined
  if (!compilation || faults.length > 0)
    throw new Error(`The content does not compile:\n${faults.slice(0, 5).map(faultLine).join('\n')}`)
  compiled = compilation.protocol
  return compiled
}

/** The real protocol, ready for use. */
export function realProtocol(): Protocol {
  prepared ??= prepare(realCompiled().logic)
  return prepared
}
