/** What the sections of an outcome are made of: plans, folds and times to look again. */
import type { ComponentChildren, VNode } from 'preact'
import { Disclosure } from '../parts/Disclosure.tsx'
import { SectionList, type SectionListKind } from '../parts/Sections.tsx'
import { labels } from '../wording/labels.ts'
import type { OpenAndFolded, PlanPart } from '../wording/outcome.ts'
import type { Look } from '../wording/times.ts'

/** A list behind one tap, with how many lines it holds; nothing where it holds none. */
export function Folded(props: {
  readonly summary: (count: number) => string
  readonly kind?: SectionListKind
  readonly items: readonly ComponentChildren[]
  readonly open?: boolean
}): VNode | null {
  const { summary, kind = 'reasons', items, open = false } = props
  return items.length === 0 ? null : (
    <Disclosure summary={summary(items.length)} open={open}>
      <SectionList kind={kind} items={items} />
    </Disclosure>
  )
}

/** When to look again and at what; the first stands open where nothing above has said it. */
export function Looks({ looks, isOpen }: { looks: readonly Look[]; isOpen: boolean }): VNode {
  const lines = looks.map(({ when, what }) => (
    <>
      <strong>
        {labels.lookAgain} {when}:
      </strong>{' '}
      {what.join(' ')}
    </>
  ))
  return (
    <>
      {isOpen && lines.length > 0 ? <p>{lines[0]}</p> : null}
      <Folded summary={labels.moreLooks} items={isOpen ? lines.slice(1) : lines} />
    </>
  )
}

/** What a plan's title says before its colon, where the heading of the section says it already. */
const WHEN = /^[^:]*: /

function titleOf({ title }: PlanPart, saysWhen: boolean | undefined): string {
  const rest = saysWhen ? title.replace(WHEN, '') : title
  return rest.slice(0, 1).toUpperCase() + rest.slice(1)
}

interface PlansProps {
  /** The section's own heading says when: "While you phone". */
  readonly saysWhen?: boolean | undefined
}

/** Plans one after the other; a plan that stands alone needs no title. */
export function Plans({ open, folded, saysWhen }: PlansProps & OpenAndFolded<PlanPart>): VNode {
  return (
    <>
      {open.map(part => (
        <div key={part.id} class="plan">
          {open.length + folded.length > 1 ? <h3>{titleOf(part, saysWhen)}</h3> : null}
          <Plan {...part} />
        </div>
      ))}
      <FoldedPlans parts={folded} saysWhen={saysWhen} />
    </>
  )
}

/** Plans under their titles. */
export function FoldedPlans({
  parts,
  saysWhen,
}: PlansProps & { readonly parts: readonly PlanPart[] }): VNode | null {
  return parts.length === 0 ? null : (
    <div class="folds">
      {parts.map(part => (
        <Disclosure key={part.id} summary={titleOf(part, saysWhen)}>
          <Plan {...part} />
        </Disclosure>
      ))}
    </div>
  )
}

function Plan({ opening, steps }: PlanPart): VNode {
  return (
    <>
      {opening === undefined ? null : <p>{opening}</p>}
      <SectionList kind="steps" items={steps} />
    </>
  )
}
