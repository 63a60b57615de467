/** The clinic's reading page: a history from a link or a file, shown and not stored. */
import type { VNode } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { type Handover, handoverSchema } from '../../../shared/handover.ts'
import { decodeLink } from '../../handover/link/codec.ts'
import { HISTORY_LINK } from '../../handover/links.ts'
import { textPage } from '../../handover/text-page.ts'
import { Page } from '../record/parts.tsx'
import { HistoryPage } from './HistoryPage.tsx'
import { CopyText } from './parts.tsx'

const MOST_FILE_BYTES = 2_000_000

type Read = { readonly history: Handover } | { readonly sentence: string }

async function readFile(file: File): Promise<Read> {
  if (file.size > MOST_FILE_BYTES)
    return { sentence: `“${file.name}” is larger than 2 MB. Choose a history file.` }
  try {
    const parsed = handoverSchema.safeParse(JSON.parse(await file.text()))
    if (parsed.success) return { history: parsed.data }
  } catch {
    // No JSON: said below.
  }
  return { sentence: `“${file.name}” is no history that this guide saved. Choose another file.` }
}

export function ReadScreen({ data, onBack }: { readonly data: string; readonly onBack: () => void }): VNode {
  const [read, setRead] = useState<Read>()
  useEffect(() => {
    if (data === '') return
    let stands = true
    void decodeLink(HISTORY_LINK, data).then(link => {
      if (stands) setRead(link.ok ? { history: link.value } : { sentence: link.sentence })
    })
    return () => {
      stands = false
    }
  }, [data])
  return (
    <Page title="A history for the vet" back={{ label: 'Back', onPress: onBack }} wide>
      {read && 'sentence' in read ? <p role="alert">{read.sentence}</p> : null}
      {read && 'history' in read ? (
        <>
          <p class="no-print">
            Written by an owner with this guide. It is shown here only, and kept nowhere.
          </p>
          <p class="outcome-links no-print">
            <button class="action" type="button" onClick={() => globalThis.print()}>
              Print
            </button>
          </p>
          <HistoryPage history={read.history} />
          <CopyText id="read-text" label="As text, for your records" text={textPage(read.history)} />
        </>
      ) : null}
      <div class="field no-print">
        <label class="field-label" for="history-file">
          Open a history file
        </label>
        <input
          class="field-input"
          id="history-file"
          type="file"
          accept=".json,application/json"
          onChange={event => {
            const [file] = event.currentTarget.files ?? []
            if (file) void readFile(file).then(setRead)
          }}
        />
      </div>
    </Page>
  )
}
