import type { Assessment } from '../../shared/assessment.ts'
import type { CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Level, levelOf, URGENCIES } from '../../shared/urgency.ts'
import { mattering, type Standing, standingOf } from './bounds.ts'
import { mergeCare, plansInPlay } from './care.ts'
import { FALSE, TRUE, UNSURE } from './intervals.ts'
import { looksAhead, seenBy } from './look-ahead.ts'
import { missingOf } from './missing.ts'
import type { Protocol } from './prepare.ts'
import { heldRules, reasonsOf, tellingRules } from './reasons.ts'
import { wouldRaise } from './would-raise.ts'

const MILDEST: Level = { urgency: URGENCIES[0] }

function dangerSigns(protocol: Protocol, standing: Standing): Assessment['dangerSigns'] {
  const lists: { present: string[]; absent: string[]; unsure: string[]; notAsked: string[] } = {
    present: [],
    absent: [],
    unsure: [],
    notAsked: [],
  }
  const { lowOptions, lowRest, highOptions, highRest, statuses } = standing.known
  for (const index of protocol.signs) {
    const fact = protocol.logic.facts[index]
    if (fact?.kind !== 'sign') continue
    const low = (lowOptions[index] ?? 0) & 1 ? TRUE : lowRest[index]
    const high = (highOptions[index] ?? 0) & 1 ? TRUE : highRest[index]
    // Not noticed on its screen is an answer, even where it will be asked again in other words.
    const screen = fact.screen.fact
    const notNoticed =
      statuses[screen] === 'answered' &&
      ((highOptions[screen] ?? 0) & fact.screen.options) === 0 &&
      highRest[screen] === FALSE
    if (low === TRUE) lists.present.push(fact.id)
    else if (high === FALSE || (low === FALSE && notNoticed)) lists.absent.push(fact.id)
    else if (low === UNSURE && high === UNSURE) lists.unsure.push(fact.id)
    else lists.notAsked.push(fact.id)
  }
  return lists
}

function weightFinding(protocol: Protocol, standing: Standing): Assessment['weightLoss'] {
  const { weights } = standing.known
  const index = protocol.logic.facts.findIndex(({ kind }) => kind === 'weight-loss')
  const reference = weights?.reference
  const bits = standing.known.lowOptions[index] ?? 0
  const band = protocol.logic.facts[index]?.options.find((_, at) => bits & (1 << at))
  if (!weights?.newest || !reference || band === undefined) return undefined
  return {
    band,
    lossPercent: Math.round(reference.lossPercent * 10) / 10,
    lossGrams: Math.round(reference.lossGrams * 10) / 10,
    overDays: Math.floor(reference.overDays),
    referenceGrams: reference.referenceGrams,
    referenceAt: reference.referenceAt,
    newestGrams: weights.newest.massGrams,
    newestAt: weights.newest.at,
    explainedGrams: Math.round(weights.explainedGrams * 10) / 10,
    fresh: weights.newestIsFresh,
  }
}

/** The level shown for a bound: the mildest where no rule gives anything. */
function shownLevel(rank: number): Level {
  return levelOf(rank) ?? MILDEST
}

/**
 * Weighs a case file against a protocol at a time. Pure and deterministic: the same three give the same
 * assessment, byte for byte. An unsettled case has bounds and a next question, never an urgency.
 */
export function assess(protocol: Protocol, caseFile: CaseFile, now: Moment): Assessment {
  const { logic } = protocol
  const standing = standingOf(protocol, caseFile, now)
  const open = mattering(protocol, standing).map(index => logic.questions[index]?.id ?? '')
  const lower = shownLevel(standing.lower)
  const held = heldRules(protocol, standing)
  const telling = tellingRules(held, standing)
  const plans = plansInPlay(
    telling.map(({ rule }) => rule),
    lower,
  )
  const window = standing.settled ? seenBy(lower, now) : undefined
  const weightLoss = weightFinding(protocol, standing)
  return {
    protocol: { species: logic.species, version: logic.version, hash: logic.hash },
    now,
    settled: standing.settled,
    ...(standing.settled ? lower : {}),
    ...(standing.lower > 0 ? { lowerBound: lower } : {}),
    upperBound: shownLevel(standing.upper),
    ...(open[0] === undefined ? {} : { nextQuestion: open[0] }),
    open,
    ...(window ? { seenBy: window } : {}),
    concerns: logic.concerns.filter((_, index) => standing.chosen[index]),
    alsoConcerns: [
      ...new Set(held.filter(one => !one.inScope).flatMap(({ rule }) => rule.rule.concern ?? [])),
    ],
    reasons: reasonsOf(protocol, standing, telling),
    ...(weightLoss ? { weightLoss } : {}),
    care: mergeCare(protocol, standing, plans, lower),
    lookAgain: looksAhead(protocol, plans, now),
    wouldRaise: wouldRaise(protocol, standing),
    missing: missingOf(protocol, caseFile, standing, now),
    dangerSigns: dangerSigns(protocol, standing),
  }
}
