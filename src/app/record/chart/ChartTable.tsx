import type { VNode } from 'preact'
import { useState } from 'preact/hooks'
import type { Moment } from '../../../../shared/moment.ts'
import { dayWords, numberWords } from '../words.ts'
import { againstReferencePercent, type ChartData } from './chart-data.ts'

/** The data as a table; a year of days is made into rows only for who opens it. */
export function ChartTable(props: {
  readonly data: ChartData
  readonly now: Moment
  readonly locale: string
}): VNode {
  const { data, now, locale } = props
  const [isOpen, setOpen] = useState(false)
  const { grams, percent } = numberWords(locale)
  const { readings } = data
  return (
    <details class="disclosure" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary class="disclosure-summary">The same as a table</summary>
      <div class="disclosure-body">
        {isOpen ? (
          <table class="chart-table">
            <thead>
              <tr>
                <th scope="col">Day</th>
                <th scope="col">Weight</th>
                <th scope="col">Against the best</th>
              </tr>
            </thead>
            <tbody>
              {[...readings].reverse().map(one => {
                const change = againstReferencePercent(one.massGrams, data.referenceGrams)
                return (
                  <tr key={one.at}>
                    <th scope="row">{dayWords(one.at, now.zone, locale)}</th>
                    <td>
                      {grams(one.massGrams)}
                      {one.outlier ? ' (odd)' : ''}
                    </td>
                    <td>{change === undefined ? '' : percent(change, true)}</td>
                  </tr>
                )
              })}
            </tbody>
          </table>
        ) : null}
      </div>
    </details>
  )
}
