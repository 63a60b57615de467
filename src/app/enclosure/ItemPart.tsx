/** One thing that is asked: a number with its unit, one line of a few, or ticks. Left empty it is not known. */
import type { VNode } from 'preact'
import type { EnclosureItem } from '../../../shared/enclosure.ts'
import type { ReadingUnit } from '../../../shared/reading-units.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { SectionList } from '../parts/Sections.tsx'
import { toggled } from '../parts/SeveralList.tsx'
import { Input, LineButton, Select, Tick } from '../record/parts.tsx'
import { type Draft, NO_LINE, OTHER_UNIT } from './drafts.ts'
import { unitName } from './words.ts'

/** More lines than this stand in the browser's own list. */
const MOST_OPEN_LINES = 4

interface ItemPartProps {
  readonly item: EnclosureItem
  readonly draft: Draft
  readonly fault: string | undefined
  readonly onChange: (draft: Draft) => void
}

export function ItemPart(props: ItemPartProps): VNode {
  const { item, draft } = props
  return (
    <div class="enclosure-item">
      {item.kind === 'amount' ? (
        <Amount {...props} />
      ) : item.kind === 'several' ? (
        <Several {...props} />
      ) : (
        <Choice {...props} />
      )}
      {draft.from === undefined ? null : <p class="question-hint">{draft.from}</p>}
      <Disclosure summary="I don’t know">
        <p>{item.findOut}</p>
        {item.howTo.length > 0 ? <SectionList kind="steps" items={item.howTo} /> : null}
        <p>It takes about five minutes. Or leave it open: the check says what it cannot judge.</p>
      </Disclosure>
    </div>
  )
}

/** What is typed or chosen by hand is no longer what was filled in. */
const byHand = ({ from: _from, isKept: _isKept, ...draft }: Draft): Draft => draft

function Amount({ item, draft, fault, onChange }: ItemPartProps): VNode {
  const own = item.unit
  const chosen = draft.unit ?? own
  const other = own && OTHER_UNIT[own]
  const choose = (unit: ReadingUnit) => onChange({ ...byHand(draft), unit })
  return (
    <>
      <Input
        name={item.id}
        kind="number"
        label={item.ask}
        hint={item.help}
        unit={chosen === undefined ? '' : unitName(chosen)}
        value={draft.text ?? ''}
        onInput={text => onChange({ ...byHand(draft), text })}
        fault={fault}
      />
      {own === undefined || other === undefined ? null : (
        <fieldset class="chart-spans" aria-label={`Unit of: ${item.ask}`}>
          {[own, other].map(unit => (
            <button key={unit} type="button" aria-pressed={unit === chosen} onClick={() => choose(unit)}>
              {unitName(unit)}
            </button>
          ))}
        </fieldset>
      )}
    </>
  )
}

function Choice({ item, draft, onChange }: ItemPartProps): VNode {
  const lines =
    item.kind === 'since'
      ? (item.presets ?? []).map(({ text }, at) => [String(at), text] as const)
      : item.options.map(({ id, text }) => [id, text] as const)
  const choose = (picked: string) => onChange(picked === '' ? {} : { picked })
  const picked = draft.picked ?? ''
  if (lines.length > MOST_OPEN_LINES)
    return (
      <Select
        name={item.id}
        label={item.ask}
        value={picked}
        options={[['', 'Not answered'], ...lines]}
        onChoose={choose}
      />
    )
  return (
    <fieldset class="choices">
      <legend class="field-label">{item.ask}</legend>
      {item.help === undefined ? null : <p class="field-hint">{item.help}</p>}
      {lines.map(([value, words]) => (
        <label key={value} class="choice">
          <input
            class="choice-input"
            type="radio"
            name={item.id}
            value={value}
            checked={value === picked}
            onChange={() => choose(value)}
          />
          <span class="choice-words">
            <span class="choice-label">{words}</span>
          </span>
        </label>
      ))}
      {picked === '' ? null : <LineButton words="Take it back" of={item.ask} onPress={() => choose('')} />}
    </fieldset>
  )
}

function Several({ item, draft, onChange }: ItemPartProps): VNode {
  const { ticked = [] } = draft
  const lines = [
    ...item.options.map(({ id, text }) => ({ value: id, label: text })),
    { value: NO_LINE, label: item.noneText ?? 'None of these', alone: true },
  ]
  return (
    <fieldset class="choices">
      <legend class="field-label">{item.ask}</legend>
      {item.help === undefined ? null : <p class="field-hint">{item.help}</p>}
      {lines.map(line => (
        <Tick
          key={line.value}
          words={line.label}
          on={ticked.includes(line.value)}
          onChange={() => onChange({ ticked: toggled(lines, ticked, line) })}
        />
      ))}
    </fieldset>
  )
}
