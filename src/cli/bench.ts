import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { CaseFile } from '../../shared/case-file.ts'
import type { Logic } from '../../shared/compiled.ts'
import { chartFigures, proveChart, proveRules, rulesFigures } from '../../tests/laws/enumerate.ts'
import { walkCase } from '../../tests/wizard/drive.ts'
import { assess } from '../triage/assess.ts'
import { standingOf } from '../triage/bounds.ts'
import { prepare } from '../triage/prepare.ts'
import { readCaseFile } from '../triage/read-case-file.ts'
import { wizardMachine } from '../wizard/machine.ts'
import { harderCase, typicalCase } from './bench-cases.ts'
import { linkFigures } from './bench-links.ts'
import { loggerBench } from './bench-logger.ts'
import { weighInCost } from './bench-record.ts'
import { tenYears, wholeShelf, windowRatio } from './bench-weights.ts'
import { realProtocol } from './real-protocol.ts'
import { realWeights } from './real-weights.ts'
import { buildIfNeeded } from './steps/build.mjs'
import { figuresOf } from './steps/journeys.mjs'
import { DIST, inProject } from './steps/places.mjs'

/** Prints one JSON line per figure; a prefix runs and prints only the figures whose name starts with it. */

const prefix = process.argv.slice(2).find(argument => argument !== '--') ?? ''
const NOW = { instant: '2026-11-25T02:10:00.000Z', zone: 'Europe/London' }

const wanted = (name: string) => name.startsWith(prefix)
/** Whether any figure of a group, named by how they begin, is asked for. */
const wantedGroup = (group: string) => prefix.startsWith(group) || group.startsWith(prefix)

function print(name: string, value: number, unit: string): void {
  if (wanted(name)) process.stdout.write(`${JSON.stringify({ name, value, unit })}\n`)
}

const compiled = realProtocol()
const logic: Logic = compiled.logic
const protocol = prepare(logic)

/** Calls in a second on one core: the best of five rounds, after a warm-up. */
function perSecond(run: () => unknown, roundMs = 400): number {
  const warmUp = performance.now()
  while (performance.now() - warmUp < roundMs) run()
  let best = 0
  for (let round = 0; round < 5; round += 1) {
    const began = performance.now()
    let calls = 0
    while (performance.now() - began < roundMs) {
      for (let at = 0; at < 50; at += 1) run()
      calls += 50
    }
    best = Math.max(best, (calls / (performance.now() - began)) * 1000)
  }
  return Math.round(best)
}

function speeds(): void {
  const typical = typicalCase(logic, NOW)
  const figures: readonly (readonly [string, () => unknown])[] = [
    ['assess.perSecond', () => standingOf(protocol, typical, NOW).settled],
    ['assess.withReasons.perSecond', () => assess(protocol, typical, NOW)],
  ]
  for (const [name, run] of figures) if (wanted(name)) print(name, perSecond(run), 'cases per second')
  const harder = 'assess.withReasons.hard.perSecond'
  if (!wanted(harder)) return
  const caseFile = harderCase(protocol, NOW)
  const { concerns, reasons, missing, urgency } = assess(protocol, caseFile, NOW)
  process.stderr.write(
    `${harder}: ${urgency}, ${concerns.length} concerns, ${reasons.length} reasons, ${missing.length} not told\n`,
  )
  print(
    harder,
    perSecond(() => assess(protocol, caseFile, NOW)),
    'cases per second',
  )
}

function enumerations(): void {
  for (const concern of logic.concerns) {
    const name = `enumerate.${concern}`
    if (!wantedGroup(name)) continue
    const began = performance.now()
    const ofRules = proveRules(protocol, concern)
    const ofChart = proveChart(protocol, [concern])
    print(`${name}.seconds`, Math.round(performance.now() - began) / 1000, 'seconds')
    const rules = rulesFigures(ofRules)
    const chart = chartFigures(ofChart)
    print(`${name}.rules`, rules.rules, 'rules')
    print(`${name}.rulesInFull`, rules.rulesInFull, 'rules')
    print(`${name}.rulesDecidingAlone`, rules.decideAlone, 'rules')
    print(`${name}.rulesDecidingInScope`, Object.keys(rules.decideInScope).length, 'rules')
    print(`${name}.rulesDominated`, Object.keys({ ...rules.dominatedBy, ...rules.coveredBy }).length, 'rules')
    print(`${name}.faults`, rules.faults + chart.faults, 'faults')
    print(`${name}.combinations`, Number(rules.combinations), 'combinations')
    print(`${name}.states`, chart.states, 'states')
    print(`${name}.walks`, Number(chart.walks), 'walks')
    print(`${name}.answerSets`, Number(chart.answerSets), 'answer sets')
    print(`${name}.longestWalk`, chart.longestWalk, 'questions')
  }
}

function loading(): void {
  const text = JSON.stringify(logic)
  const times: number[] = []
  for (let round = 0; round < 30; round += 1) {
    const parsed: Logic = JSON.parse(text)
    const began = performance.now()
    prepare(parsed)
    times.push(performance.now() - began)
  }
  times.sort((one, other) => one - other)
  print('protocol.load.ms', Math.round((times[Math.floor(times.length / 2)] ?? 0) * 1000) / 1000, 'ms')
}

interface StoredCase {
  readonly allowed: { readonly min: string; readonly max: string }
  readonly now: { readonly instant: string; readonly zone: string }
  readonly caseFile: unknown
}

function storedCases(): { readonly file: string; readonly stored: StoredCase }[] {
  return ['patterns', 'published'].flatMap(folder => {
    const at = inProject('tests', 'cases', folder)
    if (!existsSync(at)) return []
    return readdirSync(at)
      .filter(name => name.endsWith('.json'))
      .sort()
      .map(name => ({ file: join(folder, name), stored: JSON.parse(readFileSync(join(at, name), 'utf8')) }))
  })
}

/** Screens of each stored case from the start page to the outcome, both counted; taps to a `now` by a danger door. */
function walks(): void {
  const machine = wizardMachine(protocol)
  const screens: number[] = []
  for (const { file, stored } of storedCases()) {
    const moment = typeof stored.now === 'string' ? { ...NOW, instant: stored.now } : stored.now
    const read = readCaseFile(logic, stored.caseFile, moment)
    if (!read.ok) {
      process.stderr.write(`${file}: not a case file of this protocol: ${read.faults[0]?.field}\n`)
      continue
    }
    const { questions, reached } = walkCase(protocol, read.value, moment, machine)
    if (!reached) process.stderr.write(`${file}: no outcome\n`)
    screens.push(questions.length + 2)
  }
  screens.sort((one, other) => one - other)
  if (screens.length === 0) process.stderr.write('There is no case file under tests/cases yet: no walks.\n')
  else {
    print('walk.cases', screens.length, 'case files')
    print('walk.screens.median', screens[Math.floor((screens.length - 1) / 2)] ?? 0, 'screens')
    print('walk.screens.max', screens.at(-1) ?? 0, 'screens')
  }
  // The start page names the doors: one tap opens a danger screen, one ticks the sign, one says "go on".
  const signs = logic.rules.filter(({ origin, level }) => origin === 'sign' && level.urgency === 'now')
  const taps = signs.map(({ id }) => {
    const screen = logic.questions.find(({ phase, signs: named }) => phase === 'danger' && named.includes(id))
    const option = screen?.options[screen.signs.indexOf(id)] ?? ''
    const caseFile: CaseFile = {
      animal: {},
      answers: { [screen?.id ?? '']: { kind: 'several', chosen: [option], rest: 'no', given: NOW.instant } },
      weighIns: [],
      events: [],
      readings: [],
    }
    const { lower, settled } = standingOf(protocol, caseFile, NOW)
    return settled && lower > 0 ? 3 : Number.POSITIVE_INFINITY
  })
  print('walk.now.taps', Math.max(0, ...taps), 'taps')
}

async function sizes(): Promise<void> {
  await buildIfNeeded()
  for (const { name, bytes } of figuresOf(DIST)) print(name, bytes, 'bytes')
}

/** Reading weight records. */
function trends(): void {
  const places = (value: number) => Math.round(value * 1000) / 1000
  if (wanted('trend.window.ratio'))
    print('trend.window.ratio', places(windowRatio()), "times the library's slope alone")
  if (wanted('trend.tenYears.ms'))
    print('trend.tenYears.ms', places(tenYears(compiled, realWeights(compiled))), 'ms')
  if (wanted('trend.shelf.ms'))
    print('trend.shelf.ms', places(wholeShelf(compiled, realWeights(compiled))), 'ms')
}

if (wantedGroup('assess.')) speeds()
if (wantedGroup('trend.')) trends()
if (wantedGroup('link.')) for (const { name, value, unit } of await linkFigures()) print(name, value, unit)
if (wantedGroup('enumerate.')) enumerations()
if (wantedGroup('protocol.load')) loading()
if (wantedGroup('walk.')) walks()
if (wantedGroup('logger.')) loggerBench(print)
if (wantedGroup('record.'))
  await weighInCost()
    .then(({ wallMs, threadMs, scriptMs }) => {
      print('record.weighIn.ms', Math.round(wallMs), 'ms by the clock, at 4x')
      print('record.weighIn.threadMs', Math.round(threadMs), 'ms of the main thread, at 4x')
      print('record.weighIn.scriptMs', Math.round(scriptMs), 'ms of script, at 4x')
    })
    .catch((error: unknown) => {
      process.stderr.write(`No weighing: ${error instanceof Error ? error.message : String(error)}\n`)
    })
if (wantedGroup('js.') || wantedGroup('content.') || wantedGroup('app.'))
  await sizes().catch((error: unknown) => {
    process.stderr.write(`No sizes: ${error instanceof Error ? error.message : String(error)}\n`)
  })
