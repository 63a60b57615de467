/** The first screen: the ways to the urgent signs, one way past them, and what else is there. */
import type { VNode } from 'preact'
import type { Frame } from '../../../shared/compiled.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { labels } from '../wording/labels.ts'

export interface StartScreenProps {
  readonly frame: Frame
  /** The drawing, once it is there; its place is kept free for it. */
  readonly picture?: VNode
  readonly onDoor?: (screen: string) => void
  readonly onNone?: () => void
  /** The animal is another one, or nobody is sure. */
  readonly onOther?: () => void
  /** A case that was not finished. */
  readonly unfinished?: { readonly answers: number; readonly dropped: number; readonly onResume: () => void }
}

export function StartScreen({
  frame,
  picture,
  onDoor,
  onNone,
  onOther,
  unfinished,
}: StartScreenProps): VNode {
  return (
    <>
      <main class="main">
        <div class="start">
          <div class="start-head">
            <div class="start-words">
              <h1 tabIndex={-1}>{labels.startTitle}</h1>
              <p class="start-lead">{labels.startLead}</p>
            </div>
            <div class="start-picture">{picture}</div>
          </div>
          {unfinished === undefined ? null : (
            <Card
              label={labels.resumeTitle}
              hint={[
                labels.resumeHint(unfinished.answers),
                ...(unfinished.dropped > 0 ? [labels.dropped(unfinished.dropped)] : []),
              ].join(' ')}
              onPress={unfinished.onResume}
            />
          )}
          <ul class="link-list">
            {frame.doors.map(({ screen, door, doorHint }) => (
              <li key={screen}>
                <Card label={door} hint={doorHint} onPress={() => onDoor?.(screen)} />
              </li>
            ))}
          </ul>
          <Card
            label={labels.startOther}
            hint={labels.startOtherHint(frame.name)}
            onPress={() => onOther?.()}
          />
          <a class="link-card link-card-quiet" href="#example">
            <span class="link-card-label">{labels.exampleTitle}</span>
            <span class="link-card-hint">{labels.exampleHint}</span>
          </a>
          <div class="start-words">
            <p class="trust-line">{frame.trustLine}</p>
            <p>{labels.phoneLine}</p>
          </div>
        </div>
      </main>
      <ActionBar main={{ label: labels.startNone, onPress: () => onNone?.() }} />
    </>
  )
}

function Card(props: { label: string; hint: string | undefined; onPress: () => void }): VNode {
  return (
    <button class="link-card" type="button" onClick={props.onPress}>
      <span class="link-card-label">{props.label}</span>
      {props.hint === undefined ? null : <span class="link-card-hint">{props.hint}</span>}
    </button>
  )
}
