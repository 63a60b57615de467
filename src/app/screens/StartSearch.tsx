/** Finding the door: in the owner's own words, or by pointing at the body. Comes after the first paint. */
import type { VNode } from 'preact'
import { useRef, useState } from 'preact/hooks'
import type { SearchWords } from '../../../shared/search.ts'
import type { Found, FoundDoor } from '../../search/find-doors.ts'
import type { Door, Doors } from '../doors.ts'
import { GeckoDrawing } from '../drawing/GeckoDrawing.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import { labels } from '../wording/labels.ts'
import { regionsIn } from '../wording/regions.ts'

export interface StartSearchProps {
  readonly doors: Doors
  readonly vocabulary: SearchWords
  /** Ranks the doors by a text; fetched on its own. */
  readonly findDoors: (vocabulary: SearchWords, text: string) => Found
  readonly onSign: (screen: string) => void
  readonly onConcerns: (concerns: readonly string[]) => void
}

/** A door with the words on it. */
interface Shown extends FoundDoor {
  readonly door: Door
}

export function StartSearch(props: StartSearchProps): VNode {
  const { doors, vocabulary, findDoors, onConcerns } = props
  const [text, setText] = useState('')
  const [part, setPart] = useState<string>()
  const [ticked, setTicked] = useState<readonly string[]>([])
  const results = useRef<HTMLDivElement>(null)

  const shownOf = (found: readonly FoundDoor[]): Shown[] =>
    found.flatMap(one => {
      const door = (one.kind === 'screen' ? doors.signs : doors.concerns).find(({ id }) => id === one.id)
      return door ? [{ ...one, door }] : []
    })
  const found = text.trim() === '' ? undefined : findDoors(vocabulary, text)
  const last: FoundDoor = { kind: 'concern', id: vocabulary.nothingFound, isDanger: false }
  const withLast = (list: readonly FoundDoor[]) =>
    shownOf(list.some(({ id }) => id === last.id) ? list : [...list, last])
  const pointed = vocabulary.bodyParts.find(({ id }) => id === part)
  const ofPart = (pointed?.doors ?? []).map((id): FoundDoor => {
    const isScreen = doors.signs.some(door => door.id === id)
    return { kind: isScreen ? 'screen' : 'concern', id, isDanger: false }
  })
  // In the order of the list below, as the question itself would have them.
  const chosen = doors.concerns.filter(({ id }) => ticked.includes(id))

  const list = (shown: readonly Shown[]) => (
    <>
      <p>{labels.doorsLead}</p>
      <ul class="link-list">
        {shown.map(one => (
          <DoorRow
            key={one.id}
            shown={one}
            isTicked={ticked.includes(one.id)}
            onOpen={() => (one.kind === 'screen' ? props.onSign(one.id) : onConcerns([one.id]))}
            onTick={() =>
              setTicked(
                ticked.includes(one.id) ? ticked.filter(other => other !== one.id) : [...ticked, one.id],
              )
            }
          />
        ))}
      </ul>
    </>
  )
  return (
    <search class="start-search-parts">
      <div class="field">
        <label class="field-label" for="own-words">
          {labels.ownWords}
        </label>
        <p class="field-hint" id="own-words-hint">
          {labels.ownWordsHint}
        </p>
        <input
          class="field-input"
          id="own-words"
          type="search"
          data-kind="text"
          autocomplete="off"
          enterkeyhint="search"
          aria-describedby="own-words-hint"
          value={text}
          onInput={event => setText(event.currentTarget.value)}
          onKeyDown={event => {
            if (event.key !== 'Enter') return
            event.preventDefault()
            results.current?.querySelector<HTMLElement>('button')?.focus()
          }}
        />
      </div>
      <p role="status">
        {found === undefined ? '' : found.isFound ? labels.doorsFit(found.doors.length) : labels.noDoorFits}
      </p>
      <div class="start-search-parts" ref={results}>
        {found === undefined ? null : list(withLast(found.doors))}
      </div>
      <Disclosure summary={labels.byBodyPart}>
        <p>{labels.bodyPartLead}</p>
        <div class="body-map">
          <div class="body-map-picture">
            <GeckoDrawing
              marked={pointed ? regionsIn(pointed.places ?? pointed.name) : []}
              tappable={vocabulary.bodyParts.flatMap(one => regionsIn(one.places ?? one.name))}
              onTap={region =>
                setPart(
                  vocabulary.bodyParts.find(one => regionsIn(one.places ?? one.name).includes(region))?.id,
                )
              }
              sideways
              underside
            />
          </div>
          <ul class="body-map-list link-list">
            {vocabulary.bodyParts.map(({ id, name }) => (
              <li key={id}>
                <button
                  class="link-card"
                  type="button"
                  aria-pressed={id === part}
                  onClick={() => setPart(id)}
                >
                  <span class="link-card-label">{name}</span>
                </button>
              </li>
            ))}
          </ul>
        </div>
      </Disclosure>
      <p role="status">{pointed ? labels.bodyPartDoors(pointed.name, ofPart.length) : ''}</p>
      {pointed ? list(withLast(ofPart)) : null}
      {chosen.length === 0 ? null : (
        <div class="start-search-parts">
          <p role="status">{labels.tickedDoors(chosen.map(({ label }) => label))}</p>
          <button class="action" type="button" onClick={() => onConcerns(chosen.map(({ id }) => id))}>
            {labels.beginTicked(chosen.length)}
          </button>
        </div>
      )}
    </search>
  )
}

/** One door: the whole row opens it, the box beside it keeps it for later. A danger screen is never kept for later. */
function DoorRow(props: { shown: Shown; isTicked: boolean; onOpen: () => void; onTick: () => void }): VNode {
  const { kind, isDanger, door } = props.shown
  return (
    <li class="door-row">
      <button class="link-card" type="button" onClick={props.onOpen}>
        <span class="link-card-label">{door.label}</span>
        {door.hint === undefined ? null : <span class="link-card-hint">{door.hint}</span>}
        {isDanger ? <strong class="link-card-hint">{labels.urgentFirst}</strong> : null}
      </button>
      {kind === 'screen' ? null : (
        <label class="door-tick">
          <input
            class="choice-input"
            type="checkbox"
            aria-label={labels.tickDoor(door.label)}
            checked={props.isTicked}
            onChange={props.onTick}
          />
        </label>
      )}
    </li>
  )
}
