/** The outcome below its first line: titled sections of prose and four kinds of list. */
import type { ComponentChildren, VNode } from 'preact'

/** `steps` are numbered, `nevers` crossed out, `signs` are to be watched for, `reasons` explain. */
export type SectionListKind = 'steps' | 'nevers' | 'signs' | 'reasons'

export interface Section {
  readonly id: string
  readonly title: string
  readonly lead?: ComponentChildren
  readonly list?: { readonly kind: SectionListKind; readonly items: readonly ComponentChildren[] }
  readonly more?: ComponentChildren
}

export function Sections({ sections }: { readonly sections: readonly Section[] }): VNode {
  return (
    <>
      {sections.map(section => (
        <section key={section.id} class="section" aria-labelledby={`${section.id}-title`}>
          <h2 class="section-title" id={`${section.id}-title`}>
            {section.title}
          </h2>
          {section.lead === undefined ? null : <p>{section.lead}</p>}
          {section.list === undefined ? null : <SectionList {...section.list} />}
          {section.more}
        </section>
      ))}
    </>
  )
}

/** `role` keeps the list a list where removing its marks would take that away (Safari). */
export function SectionList(props: NonNullable<Section['list']>): VNode {
  const items = props.items.map((item, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: items are ready words in a fixed order
    <li key={index}>
      <div>{item}</div>
    </li>
  ))
  return props.kind === 'steps' ? (
    // biome-ignore lint/a11y/noRedundantRoles: Safari drops the role with the marks
    <ol class="steps" role="list">
      {items}
    </ol>
  ) : (
    // biome-ignore lint/a11y/noRedundantRoles: Safari drops the role with the marks
    <ul class={props.kind} role="list">
      {items}
    </ul>
  )
}
