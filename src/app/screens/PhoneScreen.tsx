/** Whom to phone and what to say: one tap away from every screen. */
import type { VNode } from 'preact'
import type { Frame } from '../../../shared/compiled.ts'
import { ActionBar } from '../parts/ActionBar.tsx'
import { SectionList } from '../parts/Sections.tsx'
import { firstLabels as labels } from '../wording/first-labels.ts'

export function PhoneScreen({
  frame,
  onBack,
}: {
  readonly frame: Pick<Frame, 'nobodyTonight' | 'money' | 'suffering' | 'trustLine'>
  readonly onBack: () => void
}): VNode {
  return (
    <>
      <main class="main">
        <div class="question-form">
          <h1 tabIndex={-1}>{labels.phoneTitle}</h1>
          <SectionList kind="steps" items={frame.nobodyTonight} />
          <p>{frame.money}</p>
          <p>{frame.suffering}</p>
          <p class="trust-line">{frame.trustLine}</p>
        </div>
      </main>
      <ActionBar main={{ label: labels.back, onPress: onBack }} />
    </>
  )
}
