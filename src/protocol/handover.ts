import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type { CompiledProtocol } from '../../shared/compiled.ts'
import { type AnswersAre, type HandoverContent, handoverFileSchema } from '../../shared/handover-content.ts'
import { type Path, parsed, readDocument } from './documents.ts'
import type { ContentFault } from './fault.ts'

/** What came of reading what a clinic receives: the content, or every fault found. */
export type LoadedHandover =
  | { readonly ok: true; readonly handover: HandoverContent | undefined }
  | { readonly ok: false; readonly faults: readonly ContentFault[] }

/**
 * Reads handover.yaml of one species and checks every id in it against its protocol. A species without the file has
 * none. `folder` is content/.
 */
export function loadHandover(
  folder: string,
  species: string,
  { logic, sources }: Pick<CompiledProtocol, 'logic' | 'sources'>,
): LoadedHandover {
  const file = `${species}/handover.yaml`
  if (!existsSync(join(folder, file))) return { ok: true, handover: undefined }
  const faults: ContentFault[] = []
  const document = readDocument(folder, file, faults)
  const handover = parsed(handoverFileSchema, document, faults)
  if (!handover) return { ok: false, faults }

  const options = new Map(logic.questions.map(question => [question.id, new Set(question.options)]))
  const rules = new Set(logic.rules.map(({ id }) => id))
  const fault = (path: Path, given: string, accepted: string) =>
    faults.push(document.faultAt(path, `${path.join('.')}: given: ${given}; accepted: ${accepted}`))
  const checkQuestions = (path: Path, ids: readonly string[]) => {
    for (const [at, id] of ids.entries())
      if (!options.has(id)) fault([...path, at], id, 'a question of the protocol')
  }
  const placed = new Set<string>()
  const asked = new Set<string>()
  for (const list of ['told', 'readAloud', 'course'] as const) checkQuestions([list], handover[list])
  const checkAnswers = (path: Path, answers: readonly AnswersAre[]) => {
    for (const [at, one] of answers.entries())
      for (const [question, named] of Object.entries(one))
        for (const option of named)
          if (!options.get(question)?.has(option))
            fault([...path, at, question], `${question}: ${option}`, 'an option of a question')
  }
  checkAnswers(['underVet'], handover.underVet)
  for (const [at, { questions, asks }] of handover.sections.entries()) {
    checkQuestions(['sections', at, 'questions'], questions)
    for (const id of questions)
      if (placed.has(id)) fault(['sections', at, 'questions'], id, 'a question that stands in one section')
      else placed.add(id)
    for (const [index, { id, ifAnswered = [] }] of asks.entries()) {
      checkQuestions(['sections', at, 'asks', index, 'ifAnswered'], ifAnswered)
      if (asked.has(id)) fault(['sections', at, 'asks', index], id, 'an id that is used once')
      else asked.add(id)
    }
  }
  for (const [at, { rules: named, answers }] of handover.keepApart.entries()) {
    for (const id of named)
      if (!rules.has(id)) fault(['keepApart', at, 'rules'], id, 'a rule of the protocol')
    checkAnswers(['keepApart', at, 'answers'], answers)
  }
  for (const list of ['bring', 'travel'] as const)
    for (const [at, { sources: named, basis }] of handover[list].entries()) {
      for (const id of named)
        if (!Object.hasOwn(sources, id)) fault([list, at, 'sources'], id, 'a source of sources.yaml')
      if (basis === 'published' && named.length === 0)
        fault([list, at], basis, 'at least one source with published')
    }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, handover }
}
