/** One animal: what its weights say, the chart, what to do next. */
import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { AnimalRecord, KeptReading } from '../../../shared/record.ts'
import { atLeastAsUrgent } from '../../../shared/urgency.ts'
import type { WeightReport } from '../../measure/weightReport.ts'
import { Notice } from '../parts/Notice.tsx'
import { chartData } from './chart/chart-data.ts'
import { WeightChart } from './chart/WeightChart.tsx'
import { LENGTH, LOOK, lastLook } from './condition.ts'
import { levelBy, lifeOf, type Room, reportOf, seriesOf } from './keeper.ts'
import { Afterwards, Page, Way } from './parts.tsx'
import { sayNext, sayReport } from './say.ts'
import { AGAIN } from './WeighScreen.tsx'
import { dayWords, numberWords, placeWords } from './words.ts'

/** How much of a long record the chart shows, in days; the last is all of it. */
const SPANS = [
  ['3 months', 92],
  ['1 year', 366],
  ['All', undefined],
] as const

export interface AnimalScreenProps {
  readonly room: Room
  readonly kept: AnimalRecord
  /** Begins a check with what the record knows. */
  readonly onCheck: (kept: AnimalRecord) => void
}

export function AnimalScreen({ room, kept, onCheck }: AnimalScreenProps): VNode {
  const { content, clock, locale } = room
  const now = clock()
  const report = reportOf(kept, content, now)
  const { policy } = content
  const isYoung = lifeOf(kept.animal, content, now) === 'young'
  const said = sayReport(report, policy, isYoung, now, locale)
  const home = `#animal/${kept.animalId}`
  const place = placeWords(kept.animal)
  const look = lastLook(kept, content.condition)
  // The rules of the protocol over its weights: the page says what the shelf says.
  const level = levelBy(kept, content, now)
  const died = kept.events.findLast(({ kind }) => content.shelf.endedBy.includes(kind))
  return (
    <Page
      title={kept.animal.name}
      back={{ label: 'Animals', href: '#animals' }}
      {...(died === undefined ? { main: { label: 'Weigh', href: `${home}/weigh` } } : {})}
    >
      {place === '' ? null : <p class="question-hint">{place}</p>}
      <p class="print-only">{dayWords(now.instant, now.zone, locale)}</p>
      <div class={said.worry ? 'animal-said animal-worry' : 'animal-said'}>
        <p class="animal-main">{said.main}</p>
        {level !== undefined && atLeastAsUrgent(level.urgency, 'week') ? (
          <p class="animal-level">{content.urgencyNames[level.urgency]}, at least, by its weights alone.</p>
        ) : null}
        {said.more.map(line => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {report.comparison.weighAgainNow ? (
        <Notice title="Weigh it a second time now">
          <p>The newest weight is far from the others. A slip of the scale looks the same as a real loss.</p>
          <p>
            <a class="action action-main" href={`${home}/weigh/${AGAIN}`}>
              Weigh again
            </a>
          </p>
        </Notice>
      ) : null}
      <Chart room={room} kept={kept} report={report} />
      <Afterwards>
        {() => (
          <>
            <section class="section" aria-labelledby="next-title">
              <h2 class="section-title" id="next-title">
                {died === undefined ? 'Next' : 'Its record stays'}
              </h2>
              {(died === undefined
                ? sayNext(report, now, locale)
                : [
                    `It died, ${dayWords(died.at, now.zone, locale)}. Nothing more is due.`,
                    'Others in its room: the whole shelf says what to do.',
                  ]
              ).map(line => (
                <p key={line}>{line}</p>
              ))}
            </section>
            <Readings room={room} kept={kept} />
            <nav class="no-print" aria-label={`More about ${kept.animal.name}`}>
              <ul class="link-list">
                <Way
                  to={`${home}/happened`}
                  words="Something happened"
                  hint="A meal, a shed, eggs, a lost tail, a new home."
                />
                <Way
                  to={() => onCheck(kept)}
                  words={`Start a check for ${kept.animal.name}`}
                  hint="Its weights go with it."
                />
                <Way
                  to={`${home}/look`}
                  words="How its body looks"
                  hint={
                    look === undefined
                      ? 'Four looks at tail, hips, flanks and front legs.'
                      : `Last time, ${dayWords(look.at, now.zone, locale)}: ${look.words}.`
                  }
                />
                <Way
                  to={`#enclosure/${kept.animalId}`}
                  words="Is its enclosure right?"
                  hint="Warmth, air, light and food, with what to put right."
                />
                <Way to={`${home}/past`} words="All entries" hint="Read, change or delete." />
                <Way
                  to={`${home}/notebook`}
                  words="Type in a notebook"
                  hint="Many weights from paper, one line each."
                />
                <Way
                  to={`${home}/about`}
                  words={`About ${kept.animal.name}`}
                  hint="Hatch date, sex, tail, where it lives."
                />
                <Way to={() => globalThis.print()} words="Print this page" />
              </ul>
            </nav>
          </>
        )}
      </Afterwards>
    </Page>
  )
}

/** The newest reading of each kind that was taken where it lives. */
function Readings({ room, kept }: { room: Room; kept: AnimalRecord }): VNode | null {
  const { clock, locale } = room
  const newest = new Map<string, KeptReading>()
  for (const one of kept.readings) if (one.what !== LOOK && one.what !== LENGTH) newest.set(one.what, one)
  if (newest.size === 0) return null
  return (
    <section class="section" aria-labelledby="readings-title">
      <h2 class="section-title" id="readings-title">
        Where it lives, measured
      </h2>
      <ul class="plain">
        {[...newest.values()].map(({ what, value, unit, at, measuredWhere }) => (
          <li key={what}>
            {[what.replaceAll('-', ' '), measuredWhere].filter(Boolean).join(', ')}: {value} {unit},{' '}
            {dayWords(at, clock().zone, locale)}
          </li>
        ))}
      </ul>
    </section>
  )
}

function Chart(props: { room: Room; kept: AnimalRecord; report: WeightReport }): VNode | null {
  const { room, kept, report } = props
  const { content, clock, locale } = room
  const [span, setSpan] = useState<number | undefined>(366)
  const now = clock()
  const isYoung = lifeOf(kept.animal, content, now) === 'young'
  const data = chartData({
    report,
    ...(span === undefined ? { series: seriesOf(kept, content, now) } : {}),
    events: kept.events,
    now,
    lossPercents: content.lossPercents,
    spanDays: span,
    isYoung,
    hatchedOn: kept.animal.hatchedOn,
    growth: content.growth,
  })
  if (data === undefined) return null
  const { grams } = numberWords(locale)
  const whole = Date.parse(now.instant) - Date.parse(kept.weighIns[0]?.at ?? now.instant)
  const { policy } = content
  return (
    <div>
      {whole < 92 * 86_400_000 ? null : (
        <fieldset class="chart-spans no-print" aria-label="How far back">
          {SPANS.map(([words, days]) => (
            <button key={words} type="button" aria-pressed={days === span} onClick={() => setSpan(days)}>
              {words}
            </button>
          ))}
        </fieldset>
      )}
      <WeightChart
        data={data}
        now={now}
        locale={locale}
        referenceDays={report.comparison.recent ? policy.referenceDays : policy.slowReferenceDays}
        ofEvent={at => {
          const step = report.series.explained.find(({ events }) => events.some(one => one.at === at))
          if (step !== undefined && step.explainedGrams > 0)
            return `It explains ${grams(step.explainedGrams)} of the change.`
          const why = report.series.unexplaining.find(one => one.at === at)?.why
          return (
            why &&
            {
              notSeen: 'It was not seen, so it explains no loss.',
              weighedTooLate: 'The next weighing was too late for it to explain a loss.',
              notWeighedSince: 'It was not weighed since.',
            }[why]
          )
        }}
      />
    </div>
  )
}
