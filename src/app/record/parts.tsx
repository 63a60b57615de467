/** What the record's screens are put together from, on top of the app's own parts. */
import type { ComponentChildren, VNode } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { type Action, ActionBar } from '../parts/ActionBar.tsx'
import { Field, type FieldProps } from '../parts/Field.tsx'

/** A screen: its heading, what stands below it, and the bar. */
export function Page(props: {
  readonly title: string
  readonly back: Action
  readonly main?: Action
  readonly wide?: boolean
  readonly children: ComponentChildren
}): VNode {
  return (
    <>
      <main class={`main record${props.wide ? ' record-wide' : ''}`}>
        <h1 tabIndex={-1}>{props.title}</h1>
        {props.children}
      </main>
      <ActionBar back={props.back} {...(props.main ? { main: props.main } : {})} />
    </>
  )
}

/** What stands below the picture that somebody waits for: put there once that is painted. */
export function Afterwards({ children }: { readonly children: () => ComponentChildren }): VNode | null {
  const [isPainted, setPainted] = useState(false)
  useEffect(() => setPainted(true), [])
  return isPainted ? <>{children()}</> : null
}

/** The form of a screen; the bar's button sends it by this id. */
export const FORM = 'record-form'

export function Form(props: {
  readonly look?: string
  readonly onSend: () => Promise<unknown>
  readonly children: ComponentChildren
}): VNode {
  return (
    <form
      class={props.look ?? 'question-form'}
      id={FORM}
      onSubmit={event => {
        event.preventDefault()
        void props.onSend()
      }}
    >
      {props.children}
    </form>
  )
}

/** A field whose fault may be absent. */
export function Input({
  fault,
  hint,
  ...rest
}: Omit<FieldProps, 'fault' | 'hint'> & { fault?: string | undefined; hint?: string | undefined }): VNode {
  return (
    <Field {...rest} {...(hint === undefined ? {} : { hint })} {...(fault === undefined ? {} : { fault })} />
  )
}

/** One of a few, in the browser's own list. */
export function Select(props: {
  readonly name: string
  readonly label: string
  readonly value: string
  readonly options: readonly (readonly [value: string, words: string])[]
  readonly onChoose: (value: string) => void
}): VNode {
  const { name, label, value, options, onChoose } = props
  return (
    <div class="field">
      <label class="field-label" for={name}>
        {label}
      </label>
      <select
        class="field-input"
        id={name}
        name={name}
        value={value}
        onChange={event => onChoose(event.currentTarget.value)}
      >
        {options.map(([one, words]) => (
          <option key={one} value={one}>
            {words}
          </option>
        ))}
      </select>
    </div>
  )
}

/** One thing that holds or not. */
export function Tick(props: {
  readonly words: string
  readonly hint?: string
  readonly on: boolean
  readonly onChange: (on: boolean) => void
}): VNode {
  return (
    <label class="choice">
      <input
        class="choice-input"
        type="checkbox"
        checked={props.on}
        onChange={event => props.onChange(event.currentTarget.checked)}
      />
      <span class="choice-words">
        <span class="choice-label">{props.words}</span>
        {props.hint ? <span class="choice-hint">{props.hint}</span> : null}
      </span>
    </label>
  )
}

/** A way on in a list of ways: a link, or something that is done. */
export function Way(props: {
  readonly to: string | (() => void)
  readonly words: string
  readonly hint?: string | undefined
  /** Stands out. */
  readonly front?: boolean
}): VNode {
  const { to, words, hint, front } = props
  const inside = (
    <>
      <span class="link-card-label">{words}</span>
      {hint ? <span class="link-card-hint">{hint}</span> : null}
    </>
  )
  const look = front ? 'link-card shelf-front' : 'link-card'
  return (
    <li>
      {typeof to === 'string' ? (
        <a class={look} href={to}>
          {inside}
        </a>
      ) : (
        <button class={look} type="button" onClick={to}>
          {inside}
        </button>
      )}
    </li>
  )
}

/** Something to do with one line of a list; a screen reader hears which line. */
export function LineButton(props: {
  readonly words: string
  readonly of: string
  readonly onPress: () => unknown
}): VNode {
  return (
    <button class="review-change" type="button" onClick={() => void props.onPress()}>
      {props.words}
      <span class="spoken-only"> {props.of}</span>
    </button>
  )
}
