/** A file chosen by the person, and what came of reading it. */
import type { TargetedEvent, VNode } from 'preact'
import type { Fault } from '../../../shared/result.ts'
import { SectionList } from '../parts/Sections.tsx'

export function FileField(props: {
  readonly name: string
  readonly label: string
  readonly accept: string
  readonly onFile: (file: File) => void
}): VNode {
  const { name, label, accept, onFile } = props
  return (
    <div class="field">
      <label class="field-label" for={name}>
        {label}
      </label>
      <input
        class="field-input file-input"
        id={name}
        type="file"
        accept={accept}
        onChange={(event: TargetedEvent<HTMLInputElement>) => {
          const file = event.currentTarget.files?.[0]
          // The same file may be chosen again, after it was put right.
          event.currentTarget.value = ''
          if (file) onFile(file)
        }}
      />
    </div>
  )
}

/** Why nothing was taken in, fault by fault. */
export function Faults({ faults }: { readonly faults: readonly Fault[] }): VNode | null {
  if (faults.length === 0) return null
  return (
    <div class="notice" role="alert">
      <p class="notice-title">Nothing was taken in</p>
      <SectionList
        kind="reasons"
        items={faults.map(({ field, value, accepted }) => `${field}: ${value}. Accepted: ${accepted}.`)}
      />
    </div>
  )
}
