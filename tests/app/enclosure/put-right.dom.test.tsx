import { cleanup, render, screen } from '@testing-library/preact'
import { afterEach, describe, expect, it } from 'vitest'
import type { Urgency } from '../../../shared/urgency.ts'
import { PutRight } from '../../../src/app/enclosure/PutRight.tsx'
import type { Told } from '../../../src/app/wording/outcome.ts'
import { realEnclosure } from '../../enclosure/real.ts'
import { compiled } from '../screens/walk.ts'

const now = { instant: '2026-11-25T19:00:00Z', zone: 'Europe/London' }
const fault = realEnclosure().faults.find(({ id }) => id === 'warm-spot-too-cold')
const [step] = fault?.steps ?? []

/** An outcome of which only what this part reads is there: a cold warm spot, and one never-do or none. */
function outcome(urgency: Urgency, never?: { act: string; part: string }): Told {
  const nevers = never ? [{ id: 'not-this', ...never }] : []
  return {
    book: { frame: compiled.frame, logic: { carePlans: [{ id: 'plan', nevers }] } },
    assessment: {
      now,
      urgency,
      concerns: ['not-eating'],
      care: { nevers: nevers.map(({ id }) => ({ plan: 'plan', item: id })) },
    },
    caseFile: { answers: { 'warm-spot': { kind: 'amount', amount: 27, given: now.instant } } },
    locale: 'en-GB',
  } as unknown as Told
}

afterEach(cleanup)

describe('what an outcome says of the home', () => {
  it('gives every step of the fix where nothing forbids one', () => {
    render(<PutRight {...outcome('home')} of={undefined} />)
    for (const { text } of fault?.steps ?? []) expect(screen.getByText(text)).toBeTruthy()
    expect(screen.getByRole('link', { name: 'Check the enclosure' }).getAttribute('href')).toBe('#enclosure')
  })

  it('leaves out a step whose act and part a never-do of the outcome forbids', () => {
    if (!step) throw new Error('the fault has no step')
    render(<PutRight {...outcome('home', { act: step.act, part: step.part })} of={undefined} />)
    expect(screen.queryByText(step.text)).toBeNull()
  })

  it('waits, folded, where a vet is needed today, and leads to the home of the animal', () => {
    render(<PutRight {...outcome('day')} of="ember" />)
    const fold = screen.getByText('Once a vet is on it (1)').closest('details')
    expect(fold?.open).toBe(false)
    expect(screen.getByRole('link', { name: 'Check the enclosure' }).getAttribute('href')).toBe(
      '#enclosure/ember',
    )
  })
})
