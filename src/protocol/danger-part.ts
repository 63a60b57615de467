import type { Condition, DangerPart, Logic, Question, Rule } from '../../shared/compiled.ts'
import { HIGHEST_RANK, rankOf } from '../../shared/urgency.ts'

type Atom = Condition & { readonly kind: 'atom' }

const NEVER: Condition = { kind: 'any', of: [] }
const ALWAYS: Condition = { kind: 'all', of: [] }
const isNever = (condition: Condition) => condition.kind === 'any' && condition.of.length === 0
const isAlways = (condition: Condition) => condition.kind === 'all' && condition.of.length === 0

/** A condition with some atoms settled; parts that are settled by that go. */
function reduced(condition: Condition, atom: (atom: Atom) => Condition): Condition {
  if (condition.kind === 'atom') return atom(condition)
  const parts = condition.of.map(part => reduced(part, atom))
  const open = parts.filter(part => !isNever(part) && !isAlways(part))
  const held = parts.filter(isAlways).length
  const count =
    (condition.kind === 'all' ? parts.length : condition.kind === 'any' ? 1 : condition.count) - held
  if (count <= 0) return ALWAYS
  if (count > open.length) return NEVER
  const [only] = open
  if (open.length === 1 && only) return only
  if (count === open.length) return { kind: 'all', of: open }
  return count === 1 ? { kind: 'any', of: open } : { kind: 'atLeast', count, of: open }
}

/** The part of a condition's low end that the danger screens alone can raise. `told` is taken for every told fact. */
function byScreensAlone(
  condition: Condition,
  logic: Logic,
  screens: readonly Question[],
  told: Condition,
): Condition {
  const ofScreen = (fact: number, options: number): Condition => {
    const at = screens.findIndex(screen => screen.fact === fact)
    if (at >= 0) return { kind: 'atom', fact: at, options }
    const question = logic.questions[fact]
    const isTold =
      fact === logic.concernQuestion || fact === logic.speciesQuestion || question?.phase === 'care'
    return isTold ? told : NEVER
  }
  return reduced(condition, ({ fact, options }) => {
    const named = logic.facts[fact]
    switch (named?.kind) {
      case 'sign':
        return (options & 1) === 0 ? NEVER : ofScreen(named.screen.fact, named.screen.options)
      case 'question':
        return ofScreen(fact, options)
      default:
        // A finding is worked out of later questions: its low end is false until they are answered.
        return NEVER
    }
  })
}

/** Atoms of one screen become one; the same condition stands once. */
function anyOf(conditions: readonly Condition[]): Condition {
  const byScreen = new Map<number, number>()
  const others = new Map<string, Condition>()
  const add = (condition: Condition): void => {
    if (condition.kind === 'atom')
      byScreen.set(condition.fact, (byScreen.get(condition.fact) ?? 0) | condition.options)
    else if (condition.kind === 'any') condition.of.forEach(add)
    else others.set(JSON.stringify(condition), condition)
  }
  conditions.forEach(add)
  const atoms = [...byScreen].map(([fact, options]): Condition => ({ kind: 'atom', fact, options }))
  return { kind: 'any', of: [...atoms, ...others.values()] }
}

/**
 * Compiles the danger part of a protocol: for every way of answering the danger screens it leads to the same next
 * screen, and ends at the same answer, as the whole protocol does. That rests on two things. A screen with a sign at
 * `now` matters as long as nothing is at `now`. And whether something is there rests on low ends, which the other
 * questions, not asked yet, leave at false. Where either does not hold the part has no screens, and the whole
 * protocol is waited for.
 */
export function dangerPartOf(logic: Logic): DangerPart {
  const screens = logic.questions.filter(({ phase }) => phase === 'danger')
  const atNow = (level: Rule['level']) => rankOf(level) === HIGHEST_RANK
  const endsIf = (told: Condition, level: (rule: Rule) => Rule['level']) =>
    anyOf(
      logic.rules.flatMap(rule =>
        rule.when && atNow(rule.level) && atNow(level(rule))
          ? [byScreensAlone(rule.when, logic, screens, told)]
          : [],
      ),
    )
  const endsIfTrue = endsIf(NEVER, ({ level }) => level)
  const endsIfUnsure = endsIf(NEVER, ({ unsure }) => unsure)
  const screensAtNow = new Set(
    logic.rules.flatMap(({ origin, level, when }) => {
      const sign = when?.kind === 'atom' ? logic.facts[when.fact] : undefined
      return origin === 'sign' && sign?.kind === 'sign' && atNow(level) ? [sign.screen.fact] : []
    }),
  )
  const isWhole =
    screens.every(({ fact, gate }) => !gate && screensAtNow.has(fact)) &&
    JSON.stringify([endsIfTrue, endsIfUnsure]) ===
      JSON.stringify([endsIf(ALWAYS, ({ level }) => level), endsIf(ALWAYS, ({ unsure }) => unsure)])
  const species = logic.questions[logic.speciesQuestion]
  const choice = species?.options[0]
  return {
    species: logic.species,
    version: logic.version,
    hash: logic.hash,
    screens: isWhole ? screens : [],
    endsIfTrue,
    endsIfUnsure,
    ...(species && choice !== undefined ? { thisAnimal: { question: species.id, choice } } : {}),
    concernQuestion: logic.questions[logic.concernQuestion]?.id ?? '',
  }
}
