/** One answer out of several: native radio buttons as wide tap targets. */
import type { ComponentChildren, VNode } from 'preact'

export interface Choice {
  readonly value: string
  readonly label: string
  readonly hint?: string
  readonly picture?: ComponentChildren
  /** Not an answer about the animal ("I looked and can't tell"): set apart at the end. */
  readonly apart?: boolean
}

export interface ChoiceListProps {
  /** Groups the radio buttons; one per page. */
  readonly name: string
  /** The question; shown as the page's heading. */
  readonly title: string
  readonly hint?: string
  readonly options: readonly Choice[]
  readonly chosen?: string | undefined
  readonly onChoose: (value: string) => void
}

export function ChoiceList(props: ChoiceListProps): VNode {
  const { name, title, hint, options, chosen, onChoose } = props
  const hintId = hint === undefined ? undefined : `${name}-hint`
  return (
    <fieldset class="choices" aria-describedby={hintId}>
      <legend>
        <h1 tabIndex={-1}>{title}</h1>
      </legend>
      {hint === undefined ? null : (
        <p class="question-hint" id={hintId}>
          {hint}
        </p>
      )}
      {options.map(option => (
        <label key={option.value} class={option.apart === true ? 'choice choice-apart' : 'choice'}>
          {option.picture === undefined ? null : <span class="choice-picture">{option.picture}</span>}
          <input
            class="choice-input"
            type="radio"
            name={name}
            value={option.value}
            checked={option.value === chosen}
            onChange={() => onChoose(option.value)}
          />
          <ChoiceWords label={option.label} hint={option.hint} />
        </label>
      ))}
    </fieldset>
  )
}

export function ChoiceWords(props: { label: string; hint?: string | undefined }): VNode {
  return (
    <span class="choice-words">
      <span class="choice-label">{props.label}</span>
      {props.hint === undefined ? null : <span class="choice-hint">{props.hint}</span>}
    </span>
  )
}
