import type { Handover } from '../../shared/handover.ts'
export function htmlPage(_: Handover): string {
  return ''
}
