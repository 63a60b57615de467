/**
 * All parts on one page, for contributors; the development server shows it, no build ships it.
 * `?screen=start|question|pictures|map|number|outcome|review` shows a whole made-up screen,
 * `?scheme=dark|light` sets the scheme, `?strength=full|strong|clear|faint|none` the outcome's.
 */
import { render, type VNode } from 'preact'
import { examples as drawings } from '../drawing/drawing.examples.tsx'
import { GeckoDrawing } from '../drawing/GeckoDrawing.tsx'
import { examples as actionBars } from '../parts/ActionBar.examples.tsx'
import { ActionBar } from '../parts/ActionBar.tsx'
import { examples as choiceLists } from '../parts/ChoiceList.examples.tsx'
import { examples as disclosures } from '../parts/Disclosure.examples.tsx'
import { Disclosure } from '../parts/Disclosure.tsx'
import type { Example } from '../parts/example.ts'
import { examples as fields } from '../parts/Field.examples.tsx'
import { examples as firstLines } from '../parts/FirstLine.examples.tsx'
import type { Strength } from '../parts/FirstLine.tsx'
import { examples as notices } from '../parts/Notice.examples.tsx'
import { examples as reviewLists } from '../parts/ReviewList.examples.tsx'
import { examples as sectionLists } from '../parts/Sections.examples.tsx'
import { examples as severalLists } from '../parts/SeveralList.examples.tsx'
import { examples as timeCircles } from '../parts/TimeCircle.examples.tsx'
import { TimeCircle } from '../parts/TimeCircle.tsx'
import { examples as topBars } from '../parts/TopBar.examples.tsx'

const groups: readonly (readonly [string, readonly Example[]])[] = [
  ['TopBar', topBars],
  ['FirstLine', firstLines],
  ['TimeCircle', timeCircles],
  ['Sections', sectionLists],
  ['ChoiceList', choiceLists],
  ['SeveralList', severalLists],
  ['Field', fields],
  ['Disclosure', disclosures],
  ['Notice', notices],
  ['ReviewList', reviewLists],
  ['ActionBar', actionBars],
  ['Drawing', drawings],
]

const nothing = (): void => {}
const back = { label: 'Back', onPress: nothing }
const onward = { label: 'Go on', onPress: nothing }
const strengths: readonly Strength[] = ['none', 'faint', 'clear', 'strong', 'full']

function example(list: readonly Example[], title: string): VNode | undefined {
  return list.find(one => one.title === title)?.show()
}

function Whole(props: { screen: string; strength: Strength }): VNode {
  const inside: Record<string, () => VNode> = {
    start: () => (
      <div class="start">
        <div class="start-head">
          <div class="start-words">
            <h1>What do you see?</h1>
            <p class="start-lead">First, signs that need a vet now.</p>
          </div>
          <div class="start-picture">
            <GeckoDrawing />
          </div>
        </div>
        <ul class="link-list">
          {[
            ['Bleeding, or something hangs out', 'Blood that drips, tissue under the tail'],
            ['Hard breathing', 'Open mouth, bubbles, neck stretched'],
            ['It does not hold itself up', 'Limp, shaking, rolled over'],
            ['Burnt, crushed or bitten', ''],
          ].map(([label, hint]) => (
            <li key={label}>
              <a class="link-card" href="#a">
                <span class="link-card-label">{label}</span>
                {hint === '' ? null : <span class="link-card-hint">{hint}</span>}
              </a>
            </li>
          ))}
        </ul>
        <p class="trust-line">
          Made from vet books and papers. No vet has checked the times yet. When in doubt, phone.
        </p>
      </div>
    ),
    question: () => (
      <form class="question-form">
        {example(choiceLists, 'One chosen')}
        <Disclosure summary="How to look">
          <p>Wait until it has been warm for an hour.</p>
        </Disclosure>
      </form>
    ),
    pictures: () => <form class="question-form">{example(drawings, 'Tail width')}</form>,
    map: () => <form class="question-form">{example(drawings, 'Body map')}</form>,
    number: () => (
      <form class="question-form">
        <h1>How much does it weigh?</h1>
        {example(fields, 'With a fault')}
        {example(disclosures, 'Open')}
      </form>
    ),
    review: () => (
      <div class="question-form">
        <h1>Your answers</h1>
        {example(reviewLists, 'Two to change, one told')}
        {example(notices, 'With a title')}
      </div>
    ),
    outcome: () => (
      <div class="outcome">
        {firstLines.filter(one => one.title.toLowerCase() === props.strength).map(one => one.show())}
        <TimeCircle
          lead="Be seen"
          day="by Thursday evening"
          note="Sooner is better."
          fraction={3 / 7}
          marks={[1, 2, 3, 4, 5, 6, 7].map(number => ({ at: number / 7, number }))}
          legend="Once round is 7 days from now."
        />
        {sectionLists.map(one => one.show())}
        <p class="trust-line">
          Made from vet books and papers. No vet has checked the times yet. When in doubt, phone.
        </p>
      </div>
    ),
  }
  const show = inside[props.screen] ?? inside.start
  const bar =
    props.screen === 'outcome'
      ? { back, main: { label: 'Page for the vet', href: '#vet' } }
      : props.screen === 'start'
        ? { main: { label: 'None of these', onPress: nothing } }
        : { back, main: onward }
  return (
    <div class="page">
      {example(topBars, 'On every screen')}
      <main class="main">{show?.()}</main>
      <ActionBar {...bar} />
    </div>
  )
}

function AllParts(): VNode {
  return (
    <main class="main sheet">
      <h1>All parts</h1>
      {groups.map(([name, list]) => (
        <section key={name} class="sheet">
          <h2 class="section-title">{name}</h2>
          {list.map(one => (
            <div key={one.title} class="sheet-entry">
              <p class="sheet-title">{one.title}</p>
              {one.show()}
            </div>
          ))}
        </section>
      ))}
    </main>
  )
}

const query = new URLSearchParams(location.search)
const scheme = query.get('scheme')
if (scheme !== null) document.documentElement.dataset.scheme = scheme
const screen = query.get('screen')
const strength = strengths.find(one => one === query.get('strength')) ?? 'strong'
const root = document.getElementById('sheet')
if (root !== null) {
  render(screen === null ? <AllParts /> : <Whole screen={screen} strength={strength} />, root)
}
