/** One plain yes or no, before something is begun anew or deleted. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { ActionBar } from '../parts/ActionBar.tsx'

export interface AskScreenProps {
  readonly title: string
  readonly lines: readonly string[]
  readonly yes: string
  readonly no: string
  /** Said where `onYes` gives false. */
  readonly failed?: string
  readonly onYes: () => Promise<boolean>
  readonly onNo: () => void
}

export function AskScreen({ title, lines, yes, no, failed, onYes, onNo }: AskScreenProps): VNode {
  const [isFailed, setFailed] = useState(false)
  return (
    <>
      <main class="main">
        <div class="question-form">
          <h1 tabIndex={-1}>{title}</h1>
          {lines.map(line => (
            <p key={line}>{line}</p>
          ))}
          <div role="alert">{isFailed ? <p class="field-fault">{failed}</p> : null}</div>
        </div>
      </main>
      <ActionBar
        other={{ label: yes, onPress: () => void onYes().then(isDone => setFailed(!isDone)) }}
        main={{ label: no, onPress: onNo }}
      />
    </>
  )
}
