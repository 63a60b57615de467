import type { FindingSource, QuestionSource } from '../../../shared/content.ts'
import type { Path } from '../documents.ts'
import type { Checking } from './context.ts'

type Say = (path: Path, message: string) => void

/** What tiling needs to know of a finding and of the question its number comes from. */
type Tiled = Pick<FindingSource, 'worse'> & {
  readonly bands?:
    | readonly Pick<NonNullable<FindingSource['bands']>[number], 'id' | 'from' | 'below' | 'option'>[]
    | undefined
}
type Ranged = Pick<QuestionSource, 'kind' | 'from' | 'to'>

/** Bands tile the range of their question, without gap or overlap, listed from mildest to worst. */
export function checkTiling(finding: Tiled, question: Ranged | undefined, say: Say): void {
  const range = {
    from: question?.kind === 'amount' ? (question.from ?? Number.NEGATIVE_INFINITY) : 0,
    to: question?.kind === 'amount' ? (question.to ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY,
  }
  const listed = (finding.bands ?? []).flatMap((band, index) =>
    band.option === undefined || band.from !== undefined || band.below !== undefined
      ? [
          {
            id: band.id,
            from: band.from ?? Number.NEGATIVE_INFINITY,
            below: band.below ?? Number.POSITIVE_INFINITY,
            index,
          },
        ]
      : [],
  )
  const rising = [...listed].sort((one, other) => one.from - other.from)
  let reached = range.from
  let before = ''
  for (const band of rising) {
    const path = ['bands', band.index]
    if (band.from > reached)
      say(path, `band ${band.id}: gap from ${reached} to ${band.from}; accepted: bands that tile the range`)
    else if (before !== '' && band.from < reached)
      say(path, `band ${band.id}: overlaps ${before} below ${reached}; accepted: bands that tile the range`)
    if (band.below <= band.from) say(path, `band ${band.id}: holds nothing; accepted: from lower than below`)
    reached = Math.max(reached, band.below)
    before = band.id
  }
  const reachesEnd = range.to === Number.POSITIVE_INFINITY ? reached === range.to : reached > range.to
  if (rising.length > 0 && !reachesEnd)
    say(
      ['bands', rising.at(-1)?.index ?? 0],
      `band ${before}: gap from ${reached} to ${range.to === Number.POSITIVE_INFINITY ? 'the end' : range.to}; accepted: bands that tile the range`,
    )
  if (finding.worse === 'none') return
  const wanted = finding.worse === 'higher' ? rising : [...rising].reverse()
  const wrong = listed.find((band, at) => band.index !== wanted[at]?.index)
  if (wrong)
    say(
      ['bands', wrong.index],
      `band ${wrong.id}: out of order; accepted: mildest first, ${wanted.map(({ id }) => id).join(', ')}`,
    )
}

function checkGrid(finding: FindingSource, say: Say): void {
  const grid = finding.grid ?? []
  const mildest = grid[0]
  if (mildest && (mildest.atLeastPercent > 0 || mildest.withinDays !== undefined))
    say(
      ['grid', 0],
      `cell ${mildest.id}: accepted: a mildest cell that takes every loss (atLeastPercent 0 or less, no withinDays)`,
    )
  grid.forEach((cell, index) => {
    const hiding = grid
      .slice(index + 1)
      .find(
        other =>
          other.atLeastPercent <= cell.atLeastPercent &&
          (other.withinDays ?? Number.POSITIVE_INFINITY) >= (cell.withinDays ?? Number.POSITIVE_INFINITY),
      )
    if (hiding)
      say(
        ['grid', index],
        `cell ${cell.id}: out of order, ${hiding.id} takes all it takes; accepted: mildest first`,
      )
  })
}

function checkMonths(finding: FindingSource, say: Say): void {
  const seen = new Map<number, string>()
  for (const [index, { id, months }] of (finding.months ?? []).entries())
    for (const month of months) {
      const other = seen.get(month)
      if (other !== undefined)
        say(['months', index], `season ${id}: overlaps ${other} in month ${month}; accepted: each month once`)
      seen.set(month, id)
    }
  const missing = Array.from({ length: 12 }, (_, at) => at + 1).filter(month => !seen.has(month))
  if (finding.months && missing.length > 0)
    say(['months'], `${finding.id}: gap, months ${missing.join(', ')}; accepted: each month once`)
}

/** Bands tile the range of their question, without gap or overlap, listed from mildest to worst. */
export function checkBands({ questions, findings, refuse }: Checking): void {
  for (const { source: finding, document, path } of findings) {
    const say: Say = (below, message) => refuse(document, [...path, ...below], `${finding.id}: ${message}`)
    const question = questions.find(one => one.source.id === finding.question)?.source
    if (finding.computed === undefined) checkTiling(finding, question, say)
    checkGrid(finding, say)
    checkMonths(finding, say)
  }
}
