/** What a file would change, before anything is written. */
import type { VNode } from 'preact'
import type { Preview } from '../../records/preview.ts'
import { SectionList } from '../parts/Sections.tsx'

export function PreviewPart(props: {
  readonly preview: Preview
  /** The file brings something besides. */
  readonly hasMore?: boolean
  readonly onTake: () => void
  readonly onLeave: () => void
}): VNode {
  const { preview, hasMore, onTake, onLeave } = props
  const nothing = preview.entries.length === 0 && !hasMore
  return (
    <div class="notice" role="status">
      <p class="notice-title">{nothing ? 'All of this is on record already' : 'This would change'}</p>
      <SectionList
        kind="reasons"
        items={preview.animals.map(one => {
          const parts = [
            [one.new, 'new'],
            [one.changed, 'changed'],
            [one.removed, 'deleted'],
            [one.known, 'known already'],
          ] as const
          const counts = parts.filter(([count]) => count > 0).map(([count, words]) => `${count} ${words}`)
          const what = one.isRemoved ? 'deleted' : one.isNew ? 'a new animal' : ''
          return `${one.name}: ${[what, ...counts].filter(words => words !== '').join(', ') || 'no change'}.`
        })}
      />
      <p class="one-line">
        {nothing ? null : (
          <button class="action action-main" type="button" onClick={onTake}>
            Take it in
          </button>
        )}
        <button class="action" type="button" onClick={onLeave}>
          {nothing ? 'Close' : 'Leave it'}
        </button>
      </p>
    </div>
  )
}
