/** For a clinic: its details in, a link, a snippet and a QR code out. Nothing is stored or sent. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import { WEEKDAYS } from '../../../shared/clinic.ts'
import type { Frame } from '../../../shared/compiled.ts'
import { type ClinicForm, readClinicForm } from '../../handover/clinic-form.ts'
import { encodeLink } from '../../handover/link/codec.ts'
import { CLINIC_LINK } from '../../handover/links.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { FORM, Form, Input, Page, Select, Tick } from '../record/parts.tsx'
import { addressOf, CopyText } from './parts.tsx'
import { QrCode } from './qr.tsx'

const RAISED = [
  ['', 'As the guide says'],
  ['week', 'Within the week'],
  ['day', 'Within 24 hours'],
  ['now', 'Phone at once'],
] as const

/** Text as it may stand in HTML. */
function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
}

/** Plain HTML for the clinic's own page: one link and no script. */
export function snippetOf(link: string, name: string): string {
  return `<a href="${escaped(link)}" rel="noopener">Before you visit ${escaped(name)} with your gecko: look and prepare</a>`
}

export function MakeLinkScreen(props: {
  readonly frame: Frame
  readonly zone: string
  readonly onBack: () => void
}): VNode {
  const { frame, zone, onBack } = props
  const [form, setForm] = useState<ClinicForm>({ zone })
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const [made, setMade] = useState<{ readonly link: string; readonly name: string }>()
  const set = (name: string) => (value: string) => {
    setForm({ ...form, [name]: value })
    setMade(undefined)
  }
  const input = (name: string, label: string, hint?: string) => (
    <Input
      key={name}
      name={name}
      kind="text"
      label={label}
      hint={hint}
      value={form[name] ?? ''}
      onInput={set(name)}
      fault={faults[name]}
    />
  )
  const send = async () => {
    const read = readClinicForm(form)
    if (read.ok) {
      setFaults({})
      setMade({
        link: addressOf(`#clinic/${await encodeLink(CLINIC_LINK, read.value)}`),
        name: read.value.name,
      })
      return
    }
    const said = read.faults.map(
      ({ field, value, accepted }) => [field, `“${value}” cannot be taken. Accepted: ${accepted}.`] as const,
    )
    setFaults(Object.fromEntries(said))
    document.getElementById(said[0]?.[0] ?? '')?.focus()
  }
  return (
    <Page
      title="A link for your clinic"
      back={{ label: 'Back', onPress: onBack }}
      main={{ label: 'Make the link', form: FORM }}
    >
      <p>All you enter goes into the link itself. Nothing is stored or sent.</p>
      <Form onSend={send}>
        {input('name', 'Name of the clinic')}
        {input('telephone', 'Telephone')}
        {input('nightTelephone', 'Out-of-hours telephone')}
        {input('nightName', 'Who answers there')}
        {input('zone', 'Time zone', 'Such as Europe/London')}
        {WEEKDAYS.map(day =>
          input(
            day,
            `${day.charAt(0).toUpperCase()}${day.slice(1)}`,
            day === 'monday' ? 'Such as 09:00-12:30, 14:00-18:00. Empty is closed.' : undefined,
          ),
        )}
        <div class="field">
          <label class="field-label" for="holidays">
            Holidays and other hours
          </label>
          <p class="field-hint" id="holidays-hint">
            One line each: 2026-12-24 to 2026-12-26, or 2026-12-28 10:00-12:00
          </p>
          <textarea
            class="field-input"
            id="holidays"
            rows={4}
            aria-describedby="holidays-hint"
            value={form.holidays ?? ''}
            onInput={event => set('holidays')(event.currentTarget.value)}
          />
          <div role="alert">{faults.holidays ? <p class="field-fault">{faults.holidays}</p> : null}</div>
        </div>
        {input('address', 'Address')}
        {input('webPage', 'Web page', 'Begins with https://')}
        {input('speciesSeen', 'Animals you see')}
        {input('greeting1', 'Greeting, first line')}
        {input('greeting2', 'Greeting, second line')}
        <Select
          name="startConcern"
          label="Visitors begin with"
          value={form.startConcern ?? ''}
          options={[['', 'The start page'], ...frame.concerns.map(({ id, name }) => [id, name] as const)]}
          onChoose={set('startConcern')}
        />
        <Disclosure summary="See some things sooner">
          <p>You may raise how soon something is seen. Nothing can be lowered.</p>
          {frame.concerns.map(({ id, name }) => (
            <Select
              key={id}
              name={`raised ${id}`}
              label={name}
              value={form[`raised ${id}`] ?? ''}
              options={RAISED}
              onChoose={set(`raised ${id}`)}
            />
          ))}
          {input('telephoneNow', 'Another number for “phone now”')}
          {input('telephoneDay', 'Another number for “within 24 hours”')}
          {input('telephoneWeek', 'Another number for “within the week”')}
        </Disclosure>
        <Tick
          words={`A vet of this clinic has checked version ${frame.version} of the guide`}
          hint="Unticked, owners read: not checked by this clinic."
          on={form.checkedVersion === frame.version}
          onChange={on => set('checkedVersion')(on ? frame.version : '')}
        />
      </Form>
      {made ? (
        <section class="section" aria-labelledby="made-title">
          <h2 class="section-title" id="made-title">
            Your link
          </h2>
          <CopyText id="clinic-link" label={`Link, ${made.link.length} characters`} text={made.link} />
          <CopyText id="clinic-snippet" label="For your web page" text={snippetOf(made.link, made.name)} />
          <QrCode text={made.link} label={`QR code with the link of ${made.name}`} />
          <p>
            <a href={made.link}>Try the link</a>
          </p>
        </section>
      ) : null}
    </Page>
  )
}
