import { loggerIntake } from '../enclosure/logger.ts'
import { readDates } from '../records/csv/date-column.ts'
import { readTime } from '../records/csv/dates.ts'
import { realEnclosure } from './real-protocol.ts'

const ROWS = 500_000
const PIECE = 65_536

/** An invented logger's file: a reading a minute for most of a year, a thermostat that swings, day and night. */
function inventedFile(): string {
  const lines = ['Timestamp,Temperature(°C),Relative Humidity(%)']
  const from = Date.UTC(2025, 0, 1)
  for (let at = 0; at < ROWS; at += 1) {
    const clock = new Date(from + at * 60_000).toISOString()
    const warmth = 28 + 4 * Math.sin(at / 229) + Math.sin(at / 7)
    const damp = 45 + 10 * Math.sin(at / 500)
    lines.push(`${clock.slice(0, 10)} ${clock.slice(11, 19)},${warmth.toFixed(1)},${damp.toFixed(1)}`)
  }
  return lines.join('\r\n')
}

/** Time to read and sum up half a million rows, in pieces as a browser hands a file over; the middle of five rounds. */
export function loggerBench(print: (name: string, value: number, unit: string) => void): void {
  const { enclosure } = realEnclosure()
  const text = inventedFile()
  const times: number[] = []
  const cpu: number[] = []
  let points = 0
  for (let round = 0; round < 5; round += 1) {
    const began = performance.now()
    const cpuBefore = process.cpuUsage()
    const intake = loggerIntake(enclosure, { readDates, readTime }, { place: enclosure.logger.places[0]?.id })
    for (let at = 0; at < text.length; at += PIECE) intake.push(text.slice(at, at + PIECE))
    const outcome = intake.end()
    times.push(performance.now() - began)
    const { user, system } = process.cpuUsage(cpuBefore)
    cpu.push((user + system) / 1000)
    if (!outcome.ok || outcome.value.kind !== 'summary' || outcome.value.summary.readings !== ROWS)
      throw new Error('the invented file was not read')
    points = outcome.value.summary.temperature?.plot.length ?? 0
  }
  times.sort((one, other) => one - other)
  cpu.sort((one, other) => one - other)
  print('logger.halfMillionRows.ms', Math.round(times[2] ?? 0), 'ms')
  print('logger.halfMillionRows.slowest.ms', Math.round(times[4] ?? 0), 'ms')
  // What it takes of one core, on a machine that does other things too.
  print('logger.halfMillionRows.cpu.ms', Math.round(cpu[2] ?? 0), 'ms')
  print('logger.plot.points', points, 'points')
}
