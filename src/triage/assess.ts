import type { Assessment, Missing } from '../../shared/assessment.ts'
import type { CaseFile } from '../../shared/case-file.ts'
import type { Moment } from '../../shared/moment.ts'
import { type Level, levelOf, URGENCIES } from '../../shared/urgency.ts'
import { inScope, mattering, type Standing, standingOf } from './bounds.ts'
import { atHourAfterDays, dayOf, hoursLater, partOfDay } from './calendar.ts'
import { mergeCare, type PlansInPlay, plansInPlay } from './care.ts'
import { FALSE, highOf, intervalOf, lowOf, TRUE, UNSURE } from './intervals.ts'
import type { Protocol } from './prepare.ts'
import { reasonsOf, tellingRules, wouldRaise } from './reasons.ts'

const MILDEST: Level = { urgency: URGENCIES[0] }

function seenBy(level: Level, now: Moment): Assessment['seenBy'] {
  if (level.withinHours === undefined) return undefined
  const at = hoursLater(Date.parse(now.instant), level.withinHours)
  return { instant: new Date(at).toISOString(), day: dayOf(at, now.zone), partOfDay: partOfDay(at, now.zone) }
}

function looksAhead(protocol: Protocol, plans: PlansInPlay, now: Moment): Assessment['lookAgain'] {
  const nowMs = Date.parse(now.instant)
  const { morningHour, eveningHour } = protocol.logic.clock
  return [...plans.firstAid, ...plans.holding, ...plans.home]
    .flatMap(id => protocol.logic.carePlans.filter(plan => plan.id === id))
    .flatMap(plan =>
      plan.lookAgain.map((look, index) => {
        const at =
          look.hours !== undefined
            ? hoursLater(nowMs, look.hours)
            : look.morning !== undefined
              ? nextMorning(nowMs, look.morning, morningHour, now.zone)
              : atHourAfterDays(nowMs, look.day ?? 1, eveningHour, now.zone)
        return { at: new Date(at).toISOString(), plan: plan.id, index }
      }),
    )
    .sort((one, other) => one.at.localeCompare(other.at))
}

/** The n-th morning still to come: before the morning hour, today's is the first. */
function nextMorning(nowMs: number, count: number, hour: number, zone: string): number {
  const today = atHourAfterDays(nowMs, 0, hour, zone)
  return atHourAfterDays(nowMs, today > nowMs ? count - 1 : count, hour, zone)
}

/** Questions that were answered without telling, with whether knowing could still raise the urgency. */
function missingOf(protocol: Protocol, caseFile: CaseFile, standing: Standing, now: Moment): Missing[] {
  return protocol.logic.questions.flatMap((question, index): Missing[] => {
    if (question.phase === 'care') return []
    const status = standing.known.statuses[index]
    const answer = caseFile.answers[question.id]
    const why =
      status === 'lapsed'
        ? 'lapsed'
        : status !== 'answered' || !answer
          ? undefined
          : answer.kind === 'cannot-measure'
            ? 'cannot-measure'
            : answer.kind === 'cannot-tell' || (answer.kind === 'several' && answer.rest === 'cannot-tell')
              ? 'cannot-tell'
              : undefined
    if (!why) return []
    const canRaise = protocol.rulesOfQuestion[index]?.some(
      rule => rule.rank > standing.lower && inScope(rule, standing.chosen),
    )
    if (!canRaise && question.phase !== 'concern')
      return [{ question: question.id, why, stillMatters: standing.upper > standing.lower }]
    const { [question.id]: _, ...others } = caseFile.answers
    const without = standingOf(protocol, { ...caseFile, answers: others }, now)
    return [{ question: question.id, why, stillMatters: without.upper > standing.lower }]
  })
}

function dangerSigns(protocol: Protocol, standing: Standing): Assessment['dangerSigns'] {
  const lists: { present: string[]; absent: string[]; unsure: string[]; notAsked: string[] } = {
    present: [],
    absent: [],
    unsure: [],
    notAsked: [],
  }
  protocol.logic.facts.forEach((fact, index) => {
    if (fact.kind !== 'sign') return
    const interval = intervalOf({ kind: 'atom', fact: index, options: 1 }, standing.known)
    // Not noticed on its screen is an answer, even where it will be asked again in other words.
    const { highOptions, highRest, statuses } = standing.known
    const screen = fact.screen.fact
    const notNoticed =
      statuses[screen] === 'answered' &&
      ((highOptions[screen] ?? 0) & fact.screen.options) === 0 &&
      highRest[screen] === FALSE
    if (lowOf(interval) === TRUE) lists.present.push(fact.id)
    else if (highOf(interval) === FALSE || (lowOf(interval) === FALSE && notNoticed))
      lists.absent.push(fact.id)
    else if (lowOf(interval) === UNSURE && highOf(interval) === UNSURE) lists.unsure.push(fact.id)
    else lists.notAsked.push(fact.id)
  })
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
  const held = protocol.rules.filter((_, index) => lowOf(standing.intervals[index] ?? 0) !== FALSE)
  const telling = tellingRules(protocol, standing).map(({ rule }) => rule)
  const plans = plansInPlay(telling, lower)
  const within = (rule: Parameters<typeof inScope>[0]) => inScope(rule, standing.chosen)
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
      ...new Set(
        held
          .filter(rule => rule.concernIndex >= 0 && !within(rule))
          .flatMap(({ rule }) => rule.concern ?? []),
      ),
    ],
    reasons: reasonsOf(protocol, standing),
    ...(weightLoss ? { weightLoss } : {}),
    care: mergeCare(protocol, standing, plans, lower),
    lookAgain: looksAhead(protocol, plans, now),
    wouldRaise: wouldRaise(protocol, standing, within),
    missing: missingOf(protocol, caseFile, standing, now),
    dangerSigns: dangerSigns(protocol, standing),
  }
}
