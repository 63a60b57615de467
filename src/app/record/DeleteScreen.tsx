/** Deleting for good: one animal with all that is kept of it, or the whole record. */
import type { VNode } from 'preact'
import type { AnimalRecord } from '../../../shared/record.ts'
import { AskScreen } from '../screens/AskScreen.tsx'
import type { Room } from './keeper.ts'

export function DeleteScreen({ room, kept }: { readonly room: Room; readonly kept?: AnimalRecord }): VNode {
  const { store, tell, go } = room
  const what = kept?.animal.name ?? 'the whole record'
  return (
    <AskScreen
      title={`Delete ${what}?`}
      lines={[
        kept === undefined
          ? 'Every animal goes, with all weights, events and checks.'
          : 'All its weights, events and checks go with it.',
        'This cannot be undone. A backup file that you saved keeps them.',
        'A check under way is not deleted here. The start page does that.',
      ]}
      failed="This browser did not delete it. Nothing is gone. Try again, or load the page again."
      yes="Delete for good"
      no="Keep"
      onYes={async () => {
        const isDone = await store.erase(kept?.animalId)
        if (isDone) {
          tell(`Deleted for good: ${what}.`)
          go('#animals')
        }
        return isDone
      }}
      onNo={() => go(kept === undefined ? '#keep' : `#animal/${kept.animalId}/about`)}
    />
  )
}
