/** Any number of answers: native tick boxes as wide tap targets. */
import type { ComponentChildren, VNode } from 'preact'
import { ChoiceWords } from './ChoiceList.tsx'

export interface SeveralOption {
  readonly value: string
  readonly label: string
  readonly hint?: string
  /** Unticks all others when ticked ("none of these"), and stands apart. */
  readonly alone?: boolean
}

export interface SeveralListProps {
  readonly name: string
  readonly title: string
  readonly hint?: string
  readonly options: readonly SeveralOption[]
  readonly chosen: readonly string[]
  /** Receives the ticked values in the order of the options. */
  readonly onChange: (chosen: string[]) => void
  /** A drawing that mirrors the list; it stands between the question and the list. */
  readonly picture?: ComponentChildren
}

/** The ticked values after one option was pressed, in the order of the options. */
export function toggled(
  options: readonly SeveralOption[],
  chosen: readonly string[],
  pressed: SeveralOption,
): string[] {
  const wasTicked = chosen.includes(pressed.value)
  const staysTicked = (one: SeveralOption): boolean => {
    if (one.value === pressed.value) return !wasTicked
    if (wasTicked) return chosen.includes(one.value)
    return chosen.includes(one.value) && pressed.alone !== true && one.alone !== true
  }
  return options.filter(staysTicked).map(one => one.value)
}

export function SeveralList(props: SeveralListProps): VNode {
  const { name, title, hint, options, chosen, onChange, picture } = props
  const hintId = hint === undefined ? undefined : `${name}-hint`
  const rows = options.map(option => (
    <label key={option.value} class={option.alone === true ? 'choice choice-apart' : 'choice'}>
      <input
        class="choice-input"
        type="checkbox"
        name={name}
        value={option.value}
        checked={chosen.includes(option.value)}
        onChange={() => onChange(toggled(options, chosen, option))}
      />
      <ChoiceWords label={option.label} hint={option.hint} />
    </label>
  ))
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
      {picture === undefined ? (
        rows
      ) : (
        <div class="body-map">
          <div class="body-map-picture">{picture}</div>
          <div class="body-map-list">{rows}</div>
        </div>
      )}
    </fieldset>
  )
}
