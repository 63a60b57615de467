import type { Checking } from './context.ts'

const OF_TIME: readonly string[] = ['hours', 'days']

/** The unit of a finding fits the question it rests on, and questions carry what their kind needs. */
export function checkUnits({ questions, findings, refuse }: Checking): void {
  for (const { source: question, document, path } of questions) {
    if (
      question.kind === 'amount' &&
      (question.unit === undefined || question.from === undefined || question.to === undefined)
    )
      refuse(document, [...path, 'kind'], `${question.id}: amount needs unit, from and to`)
    if (question.kind === 'since' && question.unit !== undefined && !OF_TIME.includes(question.unit))
      refuse(
        document,
        [...path, 'unit'],
        `${question.id}: unit: given: ${question.unit}; accepted for since: ${OF_TIME.join(', ')}`,
      )
    if (question.kind === 'weights' && question.unit !== undefined && question.unit !== 'grams')
      refuse(
        document,
        [...path, 'unit'],
        `${question.id}: unit: given: ${question.unit}; accepted for weights: grams`,
      )
  }
  const byId = new Map(questions.map(one => [one.source.id, one.source]))
  for (const { source: finding, document, path } of findings) {
    const say = (accepted: string) =>
      refuse(
        document,
        [...path, 'unit'],
        `${finding.id}: unit: given: ${finding.unit}; accepted: ${accepted}`,
      )
    if (finding.computed === 'weightLoss') {
      if (finding.unit !== 'percent') say('percent')
      const measured = byId.get(finding.measuredBy ?? '')
      if (measured && measured.kind !== 'weights')
        refuse(
          document,
          [...path, 'measuredBy'],
          `${finding.id}: measuredBy: given: ${measured.id}, of kind ${measured.kind}; accepted: a question of kind weights`,
        )
    } else if (finding.computed === 'season') {
      if (finding.unit !== 'months') say('months')
    } else {
      const question = byId.get(finding.question ?? '')
      if (!question) continue
      if (question.kind === 'since' && !OF_TIME.includes(finding.unit)) say(OF_TIME.join(', '))
      if (question.kind === 'amount' && question.unit !== undefined && finding.unit !== question.unit)
        say(`${question.unit}, the unit of ${question.id}`)
      if (question.kind !== 'since' && question.kind !== 'amount')
        refuse(
          document,
          [...path, 'question'],
          `${finding.id}: question: given: ${question.id}, of kind ${question.kind}; accepted: a question of kind since or amount`,
        )
    }
  }
}
