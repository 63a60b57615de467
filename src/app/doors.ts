import type { Frame } from '../../shared/compiled.ts'

/** One way in from the start page. */
export interface Door {
  readonly id: string
  readonly label: string
  readonly hint?: string
}

/** Every way in: to a danger screen, or with one concern already told. */
export interface Doors {
  readonly signs: readonly Door[]
  readonly concerns: readonly Door[]
}

/** The doors of a protocol, most frequent concern first as content orders them. */
export function doorsOf({ doors, concerns }: Pick<Frame, 'doors' | 'concerns'>): Doors {
  return {
    signs: doors.map(({ screen, door, doorHint }) => ({
      id: screen,
      label: door,
      ...(doorHint === undefined ? {} : { hint: doorHint }),
    })),
    concerns: concerns.map(({ id, name, hint }) => ({ id, label: name, hint })),
  }
}

/**
 * The doors as they stand in the page that the build made (StartScreen writes them). The words are there already, so
 * no script carries them a second time, however many concerns there are.
 */
export function readDoors(page: ParentNode): Doors {
  const all = (kind: string): Door[] =>
    [...page.querySelectorAll(`[data-${kind}]`)].map(card => {
      const [label, hint] = [...card.children].map(part => part.textContent ?? '')
      return {
        id: card.getAttribute(`data-${kind}`) ?? '',
        label: label ?? '',
        ...(hint === undefined ? {} : { hint }),
      }
    })
  return { signs: all('sign'), concerns: all('concern') }
}
