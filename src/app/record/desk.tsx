/** Desk work that takes things in: fetched when its screen is opened. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Fault } from '../../../shared/result.ts'
import { type Preview, previewEntries } from '../../records/preview.ts'
import { readBackup } from '../../records/read-backup.ts'
import { Faults, FileField } from './FilePart.tsx'
import type { Room } from './keeper.ts'
import { PreviewPart } from './PreviewPart.tsx'

export { TablePart } from './TablePart.tsx'

/** A backup file read, and what it would change shown before anything is written. */
export function BackupPart(props: {
  readonly room: Room
  readonly onTake: (entries: Preview['entries']) => Promise<void>
}): VNode {
  const { store } = props.room
  const [preview, setPreview] = useState<Preview>()
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const read = async (file: File) => {
    const backup = await readBackup(file)
    setFaults(backup.ok ? [] : backup.faults)
    setPreview(backup.ok ? previewEntries(store.entries(), backup.value.entries) : undefined)
  }
  return (
    <>
      <FileField
        name="backup"
        label="Read a backup file"
        accept=".json,application/json"
        onFile={file => void read(file)}
      />
      <Faults faults={faults} />
      {preview === undefined ? null : (
        <PreviewPart
          preview={preview}
          onTake={() => void props.onTake(preview.entries).then(() => setPreview(undefined))}
          onLeave={() => setPreview(undefined)}
        />
      )}
    </>
  )
}
