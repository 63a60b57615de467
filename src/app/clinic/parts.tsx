/** What the clinic's screens share: a text to copy, and a file to save. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'

/** A text that may be copied; where the browser refuses, it stands there to be marked by hand. */
export function CopyText(props: {
  readonly id: string
  readonly label: string
  readonly text: string
}): VNode {
  const { id, label, text } = props
  const [said, setSaid] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text)
      setSaid('Copied.')
    } catch {
      setSaid('Mark the text and copy it by hand.')
    }
  }
  return (
    <div class="field no-print">
      <label class="field-label" for={id}>
        {label}
      </label>
      <textarea class="field-input copy-text" id={id} readOnly rows={4} value={text} />
      <button class="action" type="button" onClick={() => void copy()}>
        Copy
      </button>
      <p role="status">{said}</p>
    </div>
  )
}

/** The address of this page with something behind its `#`. */
export function addressOf(hash: string): string {
  return `${globalThis.location.href.split('#')[0] ?? ''}${hash}`
}
