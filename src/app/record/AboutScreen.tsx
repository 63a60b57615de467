/** What is known of an animal, and how sure; every part may stay empty. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { AnimalRecord, KeptAnimal } from '../../../shared/record.ts'
import { changeAnimal, remove } from '../../records/actions.ts'
import type { Room } from './keeper.ts'
import { FORM, Form, Input, Page, Select } from './parts.tsx'
import { readDay } from './read-fields.ts'

const SURE = [
  ['', 'Not said'],
  ['sure', 'Sure'],
  ['likely', 'Likely'],
  ['not-known', 'Not known'],
] as const
const SEXES = [
  ['', 'Not said'],
  ['female', 'Female'],
  ['male', 'Male'],
] as const
const TAILS = [
  ['', 'Not said'],
  ['original', 'Its first tail'],
  ['regrown', 'It grew again'],
  ['lost', 'It has none now'],
] as const

/** The value chosen from a list, or nothing for "not said". */
function chosen<Value extends string>(
  options: readonly (readonly [Value | '', string])[],
  value: string,
): Value | undefined {
  const found = options.find(([one]) => one === value)?.[0]
  return found === '' || found === undefined ? undefined : found
}

export function AboutScreen({ room, kept }: { readonly room: Room; readonly kept: AnimalRecord }): VNode {
  const { clock, save } = room
  const { animal, animalId } = kept
  const home = `#animal/${animalId}`
  const [form, setForm] = useState<Readonly<Record<string, string>>>({
    name: animal.name,
    hatched: animal.hatchedOn ?? '',
    hatchedSure: animal.hatchedCertainty ?? '',
    sexed: animal.sex ?? '',
    sexSure: animal.sexCertainty ?? '',
    tail: animal.tail ?? '',
    line: animal.colourLine ?? '',
    room: animal.place?.room ?? '',
    rack: animal.place?.rack ?? '',
    tub: animal.place?.tub ?? '',
    note: animal.note ?? '',
  })
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const typed = (name: string) => (form[name] ?? '').trim()
  const set = (name: string) => (value: string) => setForm({ ...form, [name]: value })
  const text = (name: string, label: string, kind: 'text' | 'date' = 'text') => (
    <Input
      name={name}
      kind={kind}
      label={label}
      value={form[name] ?? ''}
      onInput={set(name)}
      fault={faults[name]}
    />
  )
  const list = (name: string, label: string, options: readonly (readonly [string, string])[]) => (
    <Select name={name} label={label} value={form[name] ?? ''} options={options} onChoose={set(name)} />
  )
  const keep = async () => {
    const hatched = typed('hatched') === '' ? undefined : readDay(typed('hatched'), clock())
    const found: Record<string, string> = {}
    if (hatched && 'fault' in hatched) found.hatched = hatched.fault
    for (const [name, most] of [
      ['name', 60],
      ['line', 60],
      ['room', 40],
      ['rack', 40],
      ['tub', 40],
      ['note', 2000],
    ] as const)
      if (typed(name).length > most) found[name] = `This is too long. Accepted: up to ${most} letters.`
    if (typed('name') === '') found.name = 'Name is empty. Accepted: 1 to 60 letters.'
    setFaults(found)
    if (Object.keys(found).length > 0) return
    const some = <Key extends string, Value>(key: Key, value: Value | undefined | '') =>
      value === undefined || value === '' ? {} : ({ [key]: value } as { [Name in Key]: Value })
    const place = {
      ...some('room', typed('room')),
      ...some('rack', typed('rack')),
      ...some('tub', typed('tub')),
    }
    const next: KeptAnimal = {
      ...some('species', animal.species),
      ...some('speciesCertainty', animal.speciesCertainty),
      name: typed('name'),
      ...some('hatchedOn', typed('hatched')),
      ...some('hatchedCertainty', chosen(SURE, typed('hatchedSure'))),
      ...some('sex', chosen(SEXES, typed('sexed'))),
      ...some('sexCertainty', chosen(SURE, typed('sexSure'))),
      ...some('tail', chosen(TAILS, typed('tail'))),
      ...some('colourLine', typed('line')),
      ...(Object.keys(place).length === 0 ? {} : { place }),
      ...some('note', typed('note')),
    }
    await save(`Saved: about ${next.name}.`, writing => changeAnimal(writing, animalId, next), home)
  }
  const takeOut = async () => {
    await save(`${animal.name} is taken out.`, writing => remove(writing, animalId), '#animals')
  }
  return (
    <Page
      title={`About ${animal.name}`}
      back={{ label: 'Back', href: home }}
      main={{ label: 'Save', form: FORM }}
    >
      <Form onSend={keep}>
        {text('name', 'Name')}
        {text('hatched', 'Hatched on', 'date')}
        {list('hatchedSure', 'How sure is the day', SURE)}
        {list('sexed', 'Female or male', SEXES)}
        {list('sexSure', 'How sure is that', SURE)}
        {list('tail', 'Tail', TAILS)}
        {text('line', 'Colour line, if known')}
        {text('room', 'Room')}
        {text('rack', 'Rack')}
        {text('tub', 'Tub')}
        {text('note', 'Note')}
      </Form>
      <p>
        <button class="action" type="button" onClick={() => void takeOut()}>
          Take {animal.name} out of the record
        </button>
      </p>
      <p>
        <a href={`${home}/delete`}>Delete {animal.name} for good</a>
      </p>
    </Page>
  )
}
