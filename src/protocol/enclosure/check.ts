import type { CompiledEnclosure } from '../../../shared/enclosure.ts'
import { COMPUTED } from '../../../shared/enclosure.ts'
import { checkTiling } from '../checks/bands.ts'
import { factsOf } from '../conditions.ts'
import type { ContentDocument, Path } from '../documents.ts'
import type { ContentFault } from '../fault.ts'
import type { ProtocolSource } from '../source.ts'
import { checkEnclosureNames } from './names.ts'

/** What each check of enclosure.yaml and feeders.yaml gets. */
export interface EnclosureChecking {
  readonly source: ProtocolSource
  readonly home: NonNullable<ProtocolSource['enclosure']>['home']['value']
  readonly feeders: NonNullable<ProtocolSource['enclosure']>['feeders']['value']
  readonly compiled: CompiledEnclosure
  /** A fault in enclosure.yaml. */
  say(path: Path, message: string): void
  /** A fault in feeders.yaml. */
  sayOfFeeders(path: Path, message: string): void
}

const isComputed = (name: string): boolean => COMPUTED.some(one => one === name)

/** Bands tile their range, mildest first, and the mildest band holds all of the range that is used. */
function checkBands({ home, say }: EnclosureChecking): void {
  home.findings.forEach((finding, at) => {
    const item = home.items.find(({ id }) => id === finding.of)
    if (!item && !isComputed(finding.of))
      say(
        ['findings', at, 'of'],
        `${finding.id}: of: given: ${finding.of}; accepted: an amount item, or ${COMPUTED.join(', ')}`,
      )
    checkTiling(finding, item, (path, message) => say(['findings', at, ...path], `${finding.id}: ${message}`))
    const used = home.quantities.find(quantity => quantity.of === finding.of)?.used
    const mildest = finding.bands[0]
    if (!used || !mildest) return
    const end = finding.worse === 'lower' ? used.low : used.high
    if (end === undefined) return
    const inside =
      finding.worse === 'lower'
        ? mildest.from === undefined || mildest.from <= end
        : mildest.below === undefined || mildest.below > end
    if (!inside)
      say(
        ['findings', at, 'bands', 0],
        `${finding.id}: band ${mildest.id} leaves out ${end}; accepted: a mildest band that holds the range used`,
      )
  })
}

/** Every fault has steps, the cautions that its steps ask for, and a recheck; its concerns exist. */
function checkFixes({ source, home, say }: EnclosureChecking): void {
  const cautions = new Set(home.cautions.map(({ id }) => id))
  const concerns = source.species.value.concerns
  home.faults.forEach((fault, at) => {
    const path = ['faults', at]
    if (fault.fix.steps.length === 0)
      say([...path, 'fix', 'steps'], `${fault.id}: fix: given: no step; accepted: at least one step`)
    if (fault.fix.cautions.length === 0)
      say([...path, 'fix', 'cautions'], `${fault.id}: cautions: given: none; accepted: at least one`)
    if (!fault.recheck)
      say(
        path,
        `${fault.id}: recheck: given: none; accepted: what to look at again, and after how many hours`,
      )
    fault.fix.cautions.forEach((id, index) => {
      if (!cautions.has(id))
        say(
          [...path, 'fix', 'cautions', index],
          `${fault.id}: caution: given: ${id}; accepted: ${[...cautions].join(', ')}`,
        )
    })
    fault.fix.steps.forEach((step, index) => {
      for (const touched of step.touches) {
        const wanted = home.cautionsFor[touched]
        const missing = wanted?.filter(id => !fault.fix.cautions.includes(id)) ?? []
        if (!wanted)
          say(
            [...path, 'fix', 'steps', index, 'touches'],
            `${step.id}: touches: given: ${touched}; accepted: ${Object.keys(home.cautionsFor).join(', ')}`,
          )
        else if (missing.length > 0)
          say(
            [...path, 'fix', 'cautions'],
            `${fault.id}: step ${step.id} touches ${touched}; accepted: cautions ${missing.join(', ')} too`,
          )
      }
    })
    fault.causes.forEach((id, index) => {
      if (!concerns.includes(id))
        say([...path, 'causes', index], `${fault.id}: causes: given: ${id}; accepted: ${concerns.join(', ')}`)
    })
  })
  for (const [touched, needed] of Object.entries(home.cautionsFor))
    for (const id of needed)
      if (!cautions.has(id))
        say(
          ['cautionsFor', touched],
          `cautionsFor ${touched}: given: ${id}; accepted: ${[...cautions].join(', ')}`,
        )
}

/** Items that some fault decides by, through its own options, a band or a computed number; roles count as use. */
function usedItems({ home, compiled }: EnclosureChecking): Set<string> {
  const named = compiled.faults.flatMap(({ when }) => factsOf(when))
  const gates = compiled.items.flatMap(({ onlyIf }) => factsOf(onlyIf))
  const ids = [...named, ...gates].flatMap(at => {
    const fact = compiled.facts[at]
    return fact ? [fact.of ?? fact.id] : []
  })
  const { warmSurface, coolSide, nightLow, humidity, floorLength, floorWidth } = home.roles
  const behind: Readonly<Record<string, readonly string[]>> = {
    gradient: [warmSurface, coolSide],
    wallMargin: [humidity, coolSide, nightLow],
    floorArea: [floorLength, floorWidth],
  }
  const read = ids.flatMap(id => behind[id] ?? [id])
  const instruments = home.quantities.flatMap(({ measuredWith }) => measuredWith ?? [])
  return new Set([...read, ...instruments])
}

function checkUse(checking: EnclosureChecking): void {
  const { home, compiled, say } = checking
  const used = usedItems(checking)
  home.items.forEach((item, at) => {
    if (!used.has(item.id) && item.forHandover !== true)
      say(
        ['items', at, 'id'],
        `${item.id}: no fault uses it; accepted: an item that a fault uses, or forHandover`,
      )
  })
  const named = new Set(compiled.faults.flatMap(({ when }) => factsOf(when)))
  home.findings.forEach((finding, at) => {
    if (!named.has(home.items.length + at))
      say(['findings', at, 'id'], `${finding.id}: no fault names it; accepted: a finding that a fault names`)
  })
}

/** Runs every check over enclosure.yaml and feeders.yaml; faults are added. */
export function checkEnclosure(
  source: ProtocolSource,
  compiled: CompiledEnclosure,
  faults: ContentFault[],
): void {
  if (!source.enclosure) return
  const { home, feeders } = source.enclosure
  const into = (document: ContentDocument) => (path: Path, message: string) => {
    faults.push(document.faultAt(path, message))
  }
  const checking: EnclosureChecking = {
    source,
    home: home.value,
    feeders: feeders.value,
    compiled,
    say: into(home.document),
    sayOfFeeders: into(feeders.document),
  }
  checkEnclosureNames(checking)
  checkBands(checking)
  checkFixes(checking)
  checkUse(checking)
}
