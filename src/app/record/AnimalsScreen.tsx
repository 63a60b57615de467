/** Your animals: what each weight says in a line, and a name and one tap for one more. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { addAnimal } from '../../records/actions.ts'
import { backupDue } from '../../records/backup-reminder.ts'
import { Notice } from '../parts/Notice.tsx'
import { pastDay } from '../wording/dates.ts'
import { type Room, reportOf } from './keeper.ts'
import { Form, Input, Page, Way } from './parts.tsx'
import { dueWords, numberWords, placeWords } from './words.ts'

export function AnimalsScreen({ room }: { readonly room: Room }): VNode {
  const { record, content, clock, locale, save, store, go } = room
  const { animals } = record
  const [name, setName] = useState('')
  const [fault, setFault] = useState<string>()
  const now = clock()
  const due = backupDue(store.entries(), store.lastBackup(), now.instant)
  const { grams } = numberWords(locale)
  const add = async () => {
    const written = name.trim()
    if (written === '' || written.length > 60) {
      setFault(`Name ${written === '' ? 'is empty' : 'is too long'}. Accepted: 1 to 60 letters.`)
      return
    }
    const { animalId } = await save(`${written} is on record.`, writing =>
      addAnimal(writing, { name: written }),
    )
    go(`#animal/${animalId}`)
  }
  return (
    <Page title="Your animals" back={{ label: 'Back', href: '#start' }}>
      {animals.length === 0 ? (
        <p class="start-lead">
          None yet. Give one a name and weigh it: a weight says what eyes cannot. All stays on this device.
        </p>
      ) : (
        <ul class="link-list">
          {animals.map(kept => {
            const { newest } = reportOf(kept, content, now).comparison
            const place = placeWords(kept.animal)
            return (
              <Way
                key={kept.animalId}
                to={`#animal/${kept.animalId}`}
                words={kept.animal.name}
                hint={[
                  newest ? `${grams(newest.massGrams)} ${pastDay(newest.at, now, locale)}` : 'No weight yet',
                  place,
                ]
                  .filter(part => part !== '')
                  .join(' · ')}
              />
            )
          })}
        </ul>
      )}
      <Form look="one-line" onSend={add}>
        <Input
          name="name"
          kind="text"
          label={animals.length === 0 ? 'Its name' : 'One more: its name'}
          value={name}
          onInput={setName}
          fault={fault}
        />
        <button class={animals.length === 0 ? 'action action-main' : 'action'} type="submit">
          Add
        </button>
      </Form>
      {due.isDue ? (
        <Notice title={dueWords(due)}>
          <p>
            <a href="#keep">Save a backup file</a>. It takes one tap.
          </p>
        </Notice>
      ) : null}
      <ul class="link-list">
        {animals.length < 2 ? null : (
          <Way
            to="#shelf"
            words="The whole shelf"
            hint="Who needs a look first, who is due, cage cards to print."
          />
        )}
        <Way to="#keep" words="Keep and move the record" hint="Backup file, and weights as a table." />
      </ul>
    </Page>
  )
}
