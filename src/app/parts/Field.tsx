/** A number, date or line of text with its unit, and a sentence when it cannot be taken. */
import type { TargetedInputEvent, VNode } from 'preact'

export interface FieldProps {
  readonly name: string
  readonly label: string
  readonly hint?: string
  readonly kind: 'number' | 'date' | 'text'
  readonly unit?: string
  readonly value: string
  readonly onInput: (value: string) => void
  /** Names the value and what is accepted. */
  readonly fault?: string
}

export function Field(props: FieldProps): VNode {
  const { name, hint, fault, unit } = props
  const described = [
    hint === undefined ? '' : `${name}-hint`,
    unit === undefined ? '' : `${name}-unit`,
    fault === undefined ? '' : `${name}-fault`,
  ]
    .filter(id => id !== '')
    .join(' ')
  const shared = {
    class: 'field-input',
    id: name,
    name,
    'data-kind': props.kind,
    autocomplete: 'off',
    value: props.value,
    onInput: (event: TargetedInputEvent<HTMLInputElement>) => props.onInput(event.currentTarget.value),
    // A number is typed as text: spinning by accident must not change a weight.
    ...(props.kind === 'number' ? { inputMode: 'decimal' } : {}),
    ...(described === '' ? {} : { 'aria-describedby': described }),
    ...(fault === undefined ? {} : { 'aria-invalid': true }),
  }
  return (
    <div class="field">
      <label class="field-label" for={name}>
        {props.label}
      </label>
      {hint === undefined ? null : (
        <p class="field-hint" id={`${name}-hint`}>
          {hint}
        </p>
      )}
      <div class="field-row">
        {props.kind === 'date' ? <input type="date" {...shared} /> : <input type="text" {...shared} />}
        {unit === undefined ? null : (
          <span class="field-unit" id={`${name}-unit`}>
            {unit}
          </span>
        )}
      </div>
      <div role="alert">
        {fault === undefined ? null : (
          <p class="field-fault" id={`${name}-fault`}>
            {fault}
          </p>
        )}
      </div>
    </div>
  )
}
