import type { LoggerPolicy } from '../../../shared/enclosure.ts'
import { rounded } from '../units.ts'

/** How a thermostat holds its warmth: from turn to turn of the temperature. */
export interface ThermostatSwing {
  /** Turns from cooling to warming or back that the thermostat made. */
  readonly turns: number
  /** The middle swing between two turns that follow each other. */
  readonly typicalCelsius: number
  readonly largestCelsius: number
  /** How far the upper turns go beyond what it is set to: middle and largest; only where the setting is known. */
  readonly overshoot?: { readonly typicalCelsius: number; readonly largestCelsius: number }
}

interface Turn {
  readonly at: number
  readonly celsius: number
  readonly upper: boolean
}

function middle(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort()
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half] ?? 0
  return sorted.length % 2 ? upper : ((sorted[half - 1] ?? 0) + upper) / 2
}

/**
 * The turning points of a series: an extreme counts once the value has moved back from it by more than the noise. A
 * longer pause than `gapMs` begins anew.
 */
function turnsOf(times: Float64Array, celsius: Float64Array, noise: number, gapMs: number): Turn[] {
  const turns: Turn[] = []
  let extreme = -1
  let rising: boolean | undefined
  let before = Number.NaN
  for (let at = 0; at < times.length; at += 1) {
    const value = celsius[at] ?? Number.NaN
    if (Number.isNaN(value)) continue
    const time = times[at] ?? 0
    if (extreme < 0 || time - before > gapMs) {
      extreme = at
      rising = undefined
    } else {
      const held = celsius[extreme] ?? value
      if (rising === undefined) {
        if (Math.abs(value - held) > noise) {
          rising = value > held
          extreme = at
        }
      } else if (rising ? value >= held : value <= held) extreme = at
      else if (Math.abs(value - held) > noise) {
        turns.push({ at: times[extreme] ?? 0, celsius: held, upper: rising })
        rising = !rising
        extreme = at
      }
    }
    before = time
  }
  return turns
}

/** Swing and overshoot of a thermostat; undefined where the series shows no turns close enough together. */
export function thermostatSwing(
  times: Float64Array,
  celsius: Float64Array,
  policy: LoggerPolicy,
  gapMs: number,
  setCelsius: number | undefined,
): ThermostatSwing | undefined {
  const turns = turnsOf(times, celsius, policy.swingNoiseCelsius, gapMs)
  const longest = policy.longestSwingHours * 3_600_000
  const swings: number[] = []
  const over: number[] = []
  for (let at = 1; at < turns.length; at += 1) {
    const [one, other] = [turns[at - 1], turns[at]]
    if (!one || !other || other.at - one.at > longest || one.upper === other.upper) continue
    swings.push(Math.abs(other.celsius - one.celsius))
    if (setCelsius !== undefined && other.upper) over.push(other.celsius - setCelsius)
  }
  if (swings.length === 0) return undefined
  const most = (values: readonly number[]) =>
    values.reduce((greatest, value) => Math.max(greatest, value), Number.NEGATIVE_INFINITY)
  return {
    turns: swings.length,
    typicalCelsius: rounded(middle(swings), 2),
    largestCelsius: rounded(most(swings), 2),
    ...(over.length > 0
      ? { overshoot: { typicalCelsius: rounded(middle(over), 2), largestCelsius: rounded(most(over), 2) } }
      : {}),
  }
}
