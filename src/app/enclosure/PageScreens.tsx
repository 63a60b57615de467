/** The way through the check: what there is to tell, and one page for each part of the home. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { Notice } from '../parts/Notice.tsx'
import { FORM, Form, Page, Select, Way } from '../record/parts.tsx'
import { type Desk, type DeskPage, LOGGER, RESULT, told } from './desk.ts'
import { ItemPart } from './ItemPart.tsx'
import { SIGNS_FIRST } from './signs-first.ts'

const NO_CONCERN = '-'

export function OverviewScreen({ desk, title }: { readonly desk: Desk; readonly title: string }): VNode {
  const { pages, drafts, kept, concern, concerns, at } = desk
  const count = Object.keys(desk.faults).length
  const isTold = pages.some(page => told(page, drafts) > 0)
  return (
    <Page
      title={title}
      back={
        kept
          ? { label: kept.animal.name, href: `#animal/${kept.animalId}` }
          : { label: 'Start', href: '#start' }
      }
      {...(isTold ? { main: { label: 'What it comes to', href: at(RESULT) } } : {})}
    >
      <p class="start-lead">
        {kept ? `The home of ${kept.animal.name}. ` : ''}Tell what you know, skip the rest. A few readings are
        enough to begin.
      </p>
      <p>
        {SIGNS_FIRST} <a href="#start">Start a check of the animal.</a>
      </p>
      <Select
        name="worry"
        label="What worries you?"
        value={concern ?? NO_CONCERN}
        options={[
          [NO_CONCERN, 'Nothing, I am only looking'],
          ...concerns.map(({ id, name }) => [id, name] as const),
        ]}
        onChoose={value => desk.chooseConcern(value === NO_CONCERN ? undefined : value)}
      />
      <ul class="link-list">
        {pages.map(page => (
          <Way
            key={page.id}
            to={at(page.id)}
            words={page.name}
            hint={`${told(page, drafts)} of ${page.items.length} told`}
          />
        ))}
        <Way
          to={at(LOGGER)}
          words="A logger’s file"
          hint="Temperature or humidity over days or a year, from any logger."
        />
      </ul>
      {count === 0 ? null : (
        <p role="status">{count === 1 ? 'One field' : `${count} fields`} cannot be read yet.</p>
      )}
      <p class="question-hint">Nothing is kept until you save it. Nothing leaves this device.</p>
    </Page>
  )
}

export function GroupScreen({ desk, page }: { readonly desk: Desk; readonly page: DeskPage }): VNode {
  const { pages, drafts, faults, at, go } = desk
  // A field is judged once its page was sent, not while it is being typed.
  const [isSent, setSent] = useState(page.items.some(({ id }) => faults[id] !== undefined))
  const next = pages[pages.indexOf(page) + 1]
  const first = page.items.find(({ id }) => faults[id] !== undefined)
  const send = async () => {
    setSent(true)
    if (first === undefined) go(at(next?.id ?? RESULT))
    else document.getElementById(first.id)?.focus()
  }
  return (
    <Page
      title={page.name}
      back={{ label: 'All parts', href: at() }}
      main={{ label: next ? 'Continue' : 'What it comes to', form: FORM }}
    >
      <Form onSend={send}>
        {page.items.map(item => (
          <ItemPart
            key={item.id}
            item={item}
            draft={drafts[item.id] ?? {}}
            fault={isSent ? faults[item.id] : undefined}
            onChange={draft => desk.change(item.id, draft)}
          />
        ))}
      </Form>
      {isSent && first !== undefined ? (
        <Notice>
          <p>One reading cannot be taken. Put it right, or empty its field.</p>
        </Notice>
      ) : null}
      <p>
        <a href={at(RESULT)}>Go to what it comes to</a>
      </p>
    </Page>
  )
}
