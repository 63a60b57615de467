import type { Compilation } from '../compile.ts'
import type { ContentFault } from '../fault.ts'
import type { ProtocolSource } from '../source.ts'
import { checkAnswers } from './answers.ts'
import { checkBands } from './bands.ts'
import { checkBases } from './bases.ts'
import { checkingOf } from './context.ts'
import { checkCoverage } from './coverage.ts'
import { checkDanger } from './danger.ts'
import { checkDuplicates } from './duplicates.ts'
import { checkFollowUps } from './follow-up.ts'
import { checkGates } from './gates.ts'
import { checkLevels } from './levels.ts'
import { checkPlans } from './plans.ts'
import { checkReferences } from './references.ts'
import { checkSatisfiable } from './satisfiable.ts'
import { checkScope } from './scope.ts'
import { checkSources } from './sources.ts'
import { checkUnits } from './units.ts'
import { checkWording } from './wording.ts'

/** Runs every cross-check over content that compiled; faults are added, counts are returned for the report. */
export function checkContent(
  source: ProtocolSource,
  compilation: Compilation,
  faults: ContentFault[],
): Record<string, number> {
  // First, since everything that follows gates from question to question needs them to point back.
  if (!checkGates(compilation, faults)) return {}
  const checking = checkingOf(source, compilation, faults)
  checkDuplicates(checking)
  checkReferences(checking)
  checkScope(checking)
  checkBands(checking)
  checkUnits(checking)
  checkLevels(checking)
  checkBases(checking)
  checkSources(checking)
  const coverage = checkCoverage(checking)
  checkPlans(checking)
  checkFollowUps(checking)
  checkDanger(checking)
  checkAnswers(checking)
  checkWording(checking)
  checkSatisfiable(checking)
  return {
    rules: checking.rules.length,
    questions: checking.questions.length,
    signs: source.dangerSigns.value.signs.length,
    concerns: source.concerns.length,
    findings: checking.findings.length,
    carePlans: source.carePlans.length,
    sources: source.sources.value.length,
    evidenceRows: coverage.total,
    evidenceRowsUsed: coverage.used,
    evidenceRowsLeftOut: coverage.leftOut,
  }
}
