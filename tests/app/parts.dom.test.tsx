import { cleanup, fireEvent, render, screen } from '@testing-library/preact'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { BodyMap } from '../../src/app/drawing/BodyMap.tsx'
import { examples as drawings } from '../../src/app/drawing/drawing.examples.tsx'
import { GeckoDrawing } from '../../src/app/drawing/GeckoDrawing.tsx'
import { examples as actionBars } from '../../src/app/parts/ActionBar.examples.tsx'
import { examples as choiceLists } from '../../src/app/parts/ChoiceList.examples.tsx'
import { ChoiceList } from '../../src/app/parts/ChoiceList.tsx'
import { examples as disclosures } from '../../src/app/parts/Disclosure.examples.tsx'
import { examples as fields } from '../../src/app/parts/Field.examples.tsx'
import { Field } from '../../src/app/parts/Field.tsx'
import { examples as firstLines } from '../../src/app/parts/FirstLine.examples.tsx'
import { examples as notices } from '../../src/app/parts/Notice.examples.tsx'
import { Notice } from '../../src/app/parts/Notice.tsx'
import { examples as reviewLists } from '../../src/app/parts/ReviewList.examples.tsx'
import { examples as sectionLists } from '../../src/app/parts/Sections.examples.tsx'
import { examples as severalLists } from '../../src/app/parts/SeveralList.examples.tsx'
import { SeveralList, toggled } from '../../src/app/parts/SeveralList.tsx'
import { examples as timeCircles } from '../../src/app/parts/TimeCircle.examples.tsx'
import { TimeCircle } from '../../src/app/parts/TimeCircle.tsx'
import { examples as topBars } from '../../src/app/parts/TopBar.examples.tsx'

afterEach(cleanup)

const everyExample = [
  drawings,
  actionBars,
  choiceLists,
  disclosures,
  fields,
  firstLines,
  notices,
  reviewLists,
  sectionLists,
  severalLists,
  timeCircles,
  topBars,
].flat()

test.each(everyExample)('$title renders without inline styles, its drawings hidden', ({ show }) => {
  const { container } = render(show())
  expect(container.innerHTML.length).toBeGreaterThan(40)
  expect(container.querySelector('[style]')).toBeNull()
  for (const svg of container.querySelectorAll('svg')) {
    expect(svg.getAttribute('aria-hidden')).toBe('true')
    expect(svg.getAttribute('width')).not.toBeNull()
    expect(svg.getAttribute('height')).not.toBeNull()
  }
  for (const input of container.querySelectorAll('input')) {
    expect(input.labels?.[0]?.textContent?.trim()).toBeTruthy()
  }
})

const options = [
  { value: 'a', label: 'First', regions: ['region-back'] as const },
  { value: 'b', label: 'Second', regions: ['region-eye-left', 'region-eye-right'] as const },
  { value: 'c', label: 'None of these', alone: true },
]

test('a choice says its question, its hint and what was chosen', () => {
  const choose = vi.fn()
  render(<ChoiceList name="q" title="Which?" hint="Look." options={options} chosen="a" onChoose={choose} />)
  const group = screen.getByRole('group', { name: 'Which?' })
  expect(document.getElementById(group.getAttribute('aria-describedby') ?? '')?.textContent).toBe('Look.')
  expect((screen.getByRole('radio', { name: 'First' }) as HTMLInputElement).checked).toBe(true)
  fireEvent.click(screen.getByText('Second'))
  expect(choose).toHaveBeenCalledExactlyOnceWith('b')
})

describe('several', () => {
  test.each([
    [[], 0, ['a']],
    [['b'], 0, ['a', 'b']],
    [['a', 'b'], 2, ['c']],
    [['c'], 1, ['b']],
    [['a', 'b'], 0, ['b']],
    [['c'], 2, []],
  ])('%j and pressing option %i gives %j', (chosen, pressed, expected) => {
    expect(toggled(options, chosen, options[pressed]!)).toEqual(expected)
  })

  test('a press reports every ticked value', () => {
    const change = vi.fn()
    render(<SeveralList name="q" title="Which?" options={options} chosen={['b']} onChange={change} />)
    fireEvent.click(screen.getByText('First'))
    expect(change).toHaveBeenCalledExactlyOnceWith(['a', 'b'])
  })
})

describe('the body map', () => {
  test('marks all regions of a ticked option and takes taps on the drawing', () => {
    const change = vi.fn()
    const { container } = render(
      <BodyMap name="q" title="Where?" options={options} chosen={['b']} onChange={change} />,
    )
    const marked = [...container.querySelectorAll('.gecko-marked')].map(path =>
      path.getAttribute('data-region'),
    )
    expect(marked.sort()).toEqual(['region-eye-left', 'region-eye-right'])
    const back = container.querySelector('[data-region="region-back"]')
    if (back === null) throw new Error('no back')
    fireEvent.click(back)
    expect(change).toHaveBeenLastCalledWith(['a', 'b'])
    const eye = container.querySelector('[data-region="region-eye-right"]')
    if (eye === null) throw new Error('no eye')
    fireEvent.click(eye)
    expect(change).toHaveBeenLastCalledWith([])
    expect(screen.getAllByRole('checkbox')).toHaveLength(3)
  })

  test('a plain drawing has nothing to tap', () => {
    const { container } = render(<GeckoDrawing />)
    expect(container.querySelector('[data-region]')).toBeNull()
  })
})

test('the time circle reads as sentences, with numbers round its dial', () => {
  const { container } = render(
    <TimeCircle
      lead="Be seen"
      day="by Thursday evening, 20:00"
      note="Sooner is better."
      fraction={0.4}
      marks={[{ at: 1, number: 24 }]}
      legend="Once round is 24 hours from now."
    />,
  )
  expect(container.querySelector('p')?.textContent).toBe(
    'Be seen by Thursday evening, 20:00. Sooner is better. Once round is 24 hours from now.',
  )
  expect(container.querySelector('.dial-number')?.textContent).toBe('24')
})

test('a fault is spoken and tied to its field', () => {
  render(
    <Field
      name="w"
      kind="number"
      label="Weight"
      unit="g"
      value="x"
      onInput={() => {}}
      fault="Not a number."
    />,
  )
  const input = screen.getByLabelText('Weight')
  expect(input.getAttribute('aria-invalid')).toBe('true')
  expect(input.getAttribute('aria-describedby')).toBe('w-unit w-fault')
  expect(screen.getByRole('alert').textContent).toBe('Not a number.')
})

test('a notice is spoken only when asked', () => {
  const { rerender } = render(<Notice title="One" />)
  expect(screen.queryByRole('status')).toBeNull()
  rerender(<Notice title="One" spoken="soon" />)
  expect(screen.getByRole('status').textContent).toBe('One')
})
