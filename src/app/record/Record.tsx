/** The record as the app opens it: content and rules put together once, then its screens. */

import type { VNode } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Frame } from '../../../shared/compiled.ts'
import type { WeightsContent } from '../../../shared/weights.ts'
import type { Protocol } from '../../triage/prepare.ts'
import { recordContentOf } from './keeper.ts'
import { RecordScreens, type RecordScreensProps } from './RecordScreens.tsx'
import style from './record.css?url'

export { openKeeperStore } from '../../records/keeper-store.ts'
export { caseOf } from './case-of.ts'
export { keepCheck } from './keep-check.ts'

let weights: WeightsContent | undefined

/** Fetches what content says of weights, then the record's own style; the screens are shown after it. */
export async function fetchRest(): Promise<void> {
  weights = (await import('virtual:protocol/weights')).default
  const link = document.createElement('link')
  link.rel = 'stylesheet'
  link.href = style
  const done = new Promise(resolve => {
    // Without its style the record can be read all the same.
    link.onload = link.onerror = resolve
  })
  document.head.append(link)
  await done
}

export interface RecordProps extends Omit<RecordScreensProps, 'content'> {
  readonly protocol: Protocol
  readonly frame: Frame
}

export function Record({ protocol, frame, ...rest }: RecordProps): VNode | null {
  const content = useMemo(() => weights && recordContentOf(protocol, frame, weights), [protocol, frame])
  return content ? <RecordScreens {...rest} content={content} /> : null
}
