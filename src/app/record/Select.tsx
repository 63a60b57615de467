/** One of a few, in the browser's own list. */
import type { VNode } from 'preact'

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
