/** The first screen: doors to the urgent signs, then what worries, each one tap, and what else is there. */
import type { VNode } from 'preact'
import type { Door, Doors } from '../doors.ts'
import { firstLabels as labels } from '../wording/first-labels.ts'

export interface StartScreenProps {
  /** The animal of this guide. */
  readonly animal: string
  readonly trustLine: string
  readonly doors: Doors
  /** The drawing, once it is there; its place is kept free for it. */
  readonly picture?: VNode
  /** The search, once it is there; its place is kept free too. */
  readonly search?: VNode
  readonly onSign?: (screen: string) => void
  readonly onConcern?: (concern: string) => void
  /** More than one worry, or nobody is sure which. */
  readonly onSeveral?: () => void
  /** The animal is another one, or nobody is sure. */
  readonly onOther?: () => void
  /** A case that was begun before: to go on with, or its outcome to look at. */
  readonly earlier?: { readonly label: string; readonly hint: string; readonly onOpen: () => void }
  /** Where to delete what is kept on this device, if anything is. */
  readonly deleteHref?: string
}

export function StartScreen(props: StartScreenProps): VNode {
  const { doors, picture, search, onSign, onConcern, onSeveral, onOther, earlier, deleteHref } = props
  return (
    <main class="main">
      <div class="start">
        <div class="start-head">
          <div class="start-words">
            <h1 tabIndex={-1}>{labels.startTitle}</h1>
            <p class="start-lead">{labels.startLead}</p>
          </div>
          <div class="start-picture">{picture}</div>
        </div>
        {earlier === undefined ? null : (
          <Card label={earlier.label} hint={earlier.hint} onPress={earlier.onOpen} />
        )}
        <CardList doors={doors.signs} kind="data-sign" onOpen={onSign} />
        <section class="start-concerns" aria-labelledby="concerns-title">
          <h2 id="concerns-title">{labels.startConcerns}</h2>
          <div class="start-search">{search}</div>
          <CardList doors={doors.concerns} kind="data-concern" onOpen={onConcern} />
          <Card label={labels.startSeveral} hint={labels.startSeveralHint} onPress={() => onSeveral?.()} />
        </section>
        <div class="start-concerns">
          <Card
            label={labels.startOther}
            hint={labels.startOtherHint(props.animal)}
            onPress={() => onOther?.()}
          />
          <CardLink label={labels.recordTitle} hint={labels.recordHint} href="#animals" />
          <CardLink label={labels.enclosureTitle} hint={labels.enclosureHint} href="#enclosure" />
          <CardLink label={labels.exampleTitle} hint={labels.exampleHint} href="#example" />
          {deleteHref === undefined ? null : (
            <CardLink label={labels.deleteLink} hint={labels.deleteHint} href={deleteHref} />
          )}
        </div>
        <div class="start-words">
          <p class="trust-line">{props.trustLine}</p>
          <p>{labels.phoneLine}</p>
        </div>
      </div>
    </main>
  )
}

/** The ids stand in the page too, where the doors are read from. */
function CardList(props: {
  doors: readonly Door[]
  kind: 'data-sign' | 'data-concern'
  onOpen: ((id: string) => void) | undefined
}): VNode {
  return (
    <ul class="link-list">
      {props.doors.map(({ id, label, hint }) => (
        <li key={id}>
          <Card label={label} hint={hint} onPress={() => props.onOpen?.(id)} named={{ [props.kind]: id }} />
        </li>
      ))}
    </ul>
  )
}

function Card(props: {
  label: string
  hint: string | undefined
  onPress: () => void
  named?: Readonly<Record<string, string>>
}): VNode {
  return (
    <button class="link-card" type="button" onClick={props.onPress} {...props.named}>
      <span class="link-card-label">{props.label}</span>
      {props.hint === undefined ? null : <span class="link-card-hint">{props.hint}</span>}
    </button>
  )
}

function CardLink({ label, hint, href }: { label: string; hint: string; href: string }): VNode {
  return (
    <a class="link-card link-card-quiet" href={href}>
      <span class="link-card-label">{label}</span>
      <span class="link-card-hint">{hint}</span>
    </a>
  )
}
