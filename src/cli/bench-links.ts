import { fullestHistory } from '../../tests/handover/fullest.ts'
import { decodeLink, encodeLink } from '../handover/link/codec.ts'
import { HISTORY_LINK } from '../handover/links.ts'

interface Figure {
  readonly name: string
  readonly value: number
  readonly unit: string
}

const ROUNDS = 60

async function medianMs(run: () => Promise<unknown>): Promise<number> {
  const times: number[] = []
  for (let round = 0; round < ROUNDS; round += 1) {
    const began = performance.now()
    await run()
    times.push(performance.now() - began)
  }
  times.sort((one, other) => one - other)
  return Math.round((times[ROUNDS / 2] ?? 0) * 100) / 100
}

/** Writing and reading the fullest history as a link: every answer, twenty reasons, three years of weekly weights. */
export async function linkFigures(): Promise<Figure[]> {
  const history = fullestHistory()
  const data = await encodeLink(HISTORY_LINK, history)
  return [
    { name: 'link.encode.ms', value: await medianMs(() => encodeLink(HISTORY_LINK, history)), unit: 'ms' },
    { name: 'link.decode.ms', value: await medianMs(() => decodeLink(HISTORY_LINK, data)), unit: 'ms' },
    { name: 'link.fullest.characters', value: data.length, unit: 'characters' },
  ]
}
