import { fileURLToPath } from 'node:url'
import { filesBelow, hashOf } from '../../src/cli/steps/build.mjs'
import { realProtocol } from './real-protocol.ts'

const ROOT = fileURLToPath(new URL('../../', import.meta.url))
export const RECORD = fileURLToPath(new URL('./recorded-proof.json', import.meta.url))

/** What the recorded proof holds for: the compiled logic, and every file that decides. */
export function presentHashes(): { readonly logic: string; readonly code: string } {
  const files = ['src/measure', 'src/triage', 'src/wizard', 'shared'].flatMap(folder =>
    filesBelow(`${ROOT}${folder}`),
  )
  return { logic: realProtocol().logic.hash, code: hashOf(files.sort(), ROOT) }
}
