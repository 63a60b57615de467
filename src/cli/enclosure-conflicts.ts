import type { CompiledEnclosure, UsedRange } from '../../shared/enclosure.ts'

/** A range in words of numbers: `30 to 35`, `up to 35`, `20 or more`. */
function span({ low, high }: Pick<UsedRange, 'low' | 'high'>): string {
  if (low === undefined && high === undefined) return 'no number'
  if (low === undefined) return `up to ${high}`
  if (high === undefined) return `${low} or more`
  return low === high ? String(low) : `${low} to ${high}`
}

const cell = (text: string): string => text.replaceAll('|', '\\|')

/** Every quantity with each published row, the range that is used, its basis and the conflict, as Markdown tables. */
export function conflictTable({ quantities, faults, sources, light }: CompiledEnclosure): string {
  const titleOf = (id: string): string => {
    const source = sources[id]
    return source ? `${source.by ? `${source.by}, ` : ''}${source.title} (${source.class})` : id
  }
  const blocks = quantities.map(({ name, unit, rows, used }) =>
    [
      `## ${name} (${unit})`,
      '',
      '| source | says | in its words |',
      '|---|---|---|',
      ...rows.map(row => `| ${cell(titleOf(row.source))} | ${span(row)} | ${cell(row.note)} |`),
      `| **used here** | **${span(used)}** | ${used.basis}${used.conflict ? `: ${cell(used.conflict)}` : ''} |`,
    ].join('\n'),
  )
  const others = [
    '## Other conflicts',
    '',
    '| about | conflict |',
    '|---|---|',
    `| UV zone | ${cell(light.conflict)} |`,
    ...faults.flatMap(({ name, conflict }) => (conflict ? [`| ${cell(name)} | ${cell(conflict)} |`] : [])),
  ].join('\n')
  return `# Where the sources differ on the enclosure\n\n${[...blocks, others].join('\n\n')}\n`
}
