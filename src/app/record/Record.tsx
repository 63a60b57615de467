/** The record as the app opens it: content and rules put together once, then its screens. */

import weights from 'virtual:protocol/weights'
import type { VNode } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Frame } from '../../../shared/compiled.ts'
import type { Protocol } from '../../triage/prepare.ts'
import { recordContentOf } from './keeper.ts'
import { RecordScreens, type RecordScreensProps } from './RecordScreens.tsx'
import style from './record.css?url'

export { openKeeperStore } from '../../records/keeper-store.ts'
export { caseOf } from './case-of.ts'
export { keepCheck } from './keep-check.ts'

/** The record's own style, fetched with it and not with the first screens; resolves when it is there, or is not to be had. */
export function addStyle(): Promise<unknown> {
  const link = document.createElement('link')
  link.rel = 'stylesheet'
  link.href = style
  const done = new Promise(resolve => {
    link.onload = link.onerror = resolve
  })
  document.head.append(link)
  return done
}

export interface RecordProps extends Omit<RecordScreensProps, 'content'> {
  readonly protocol: Protocol
  readonly frame: Frame
}

export function Record({ protocol, frame, ...rest }: RecordProps): VNode {
  const content = useMemo(() => recordContentOf(protocol, frame, weights), [protocol, frame])
  return <RecordScreens {...rest} content={content} />
}
