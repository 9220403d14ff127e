import type { ParamSpec } from '../../core/builds/build.ts'
import type { RowGiven } from '../../core/job.ts'
import { parseAngle, parseCount, parseLength } from '../../core/reading/parse.ts'
import { bad, badAll, good, type Problem, type Result } from '../../core/result.ts'
import { readSection } from '../../core/section/typed.ts'

/**
 * Rows from a pasted text: one row per line, cells apart by tabs, semicolons or commas, in the order of the
 * columns (count, length, end A, end B, section, …). A first line of heads is passed over. Missing angles are square. Commas
 * part cells only where a line has neither tabs nor semicolons, so `12,5` in a tabbed list stays a number.
 */
export function readPasted(
  text: string,
  columns: readonly ParamSpec[],
  units: 'in' | 'mm',
): Result<readonly RowGiven[]> {
  const lines = text
    .split(/\r?\n/)
    .map((line, at) => ({ cells: cellsOf(line), number: at + 1 }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''))
  const first = lines[0]
  if (first && isHead(first.cells, columns)) lines.shift()
  if (lines.length === 0) return bad('paste-empty', 'There is no row in what was pasted.')
  const problems: Problem[] = []
  const rows = lines.map(({ cells, number }): RowGiven => {
    if (cells.length > columns.length)
      problems.push({
        code: 'paste-cells',
        text: `Line ${number} has ${cells.length} cells; ${columns.length} are possible: ${columns.map(({ label }) => label.toLowerCase()).join(', ')}.`,
      })
    const row: Record<string, RowGiven[string]> = {}
    columns.forEach((column, at) => {
      const cell = cells[at] ?? ''
      const read = readCell(cell, column, units)
      if (!read.ok)
        problems.push({
          code: 'paste-cell',
          text: `Line ${number}, ${column.label.toLowerCase()}: ${read.problems[0]?.text ?? ''}`,
        })
      else if (read.value !== undefined) row[column.name] = read.value
    })
    return row
  })
  return problems.length > 0 ? badAll(problems) : good(rows)
}

function cellsOf(line: string): readonly string[] {
  const by = line.includes('\t') ? '\t' : line.includes(';') ? ';' : ','
  return line.split(by).map((cell) => cell.trim())
}

/** A line of words only is column heads, unless rows may be of words only: then it must say the columns' names. */
function isHead(cells: readonly string[], columns: readonly ParamSpec[]): boolean {
  const numbers = columns.some(({ type, optional }) => numeric.includes(type) && !optional)
  if (numbers) return cells.every((cell) => !/\d/.test(cell))
  return cells.every((cell, at) => {
    const { name, label } = columns[at] ?? { name: '', label: '' }
    return [name, label].some((word) => word.toLowerCase() === cell.toLowerCase())
  })
}

const numeric: readonly ParamSpec['type'][] = ['count', 'length', 'angle']

function readCell(cell: string, column: ParamSpec, units: 'in' | 'mm'): Result<RowGiven[string] | undefined> {
  if (cell === '') {
    if (column.optional) return good(undefined)
    if (column.type === 'angle') return good(0)
    if (column.type === 'count') return good(1)
    return bad('missing', 'nothing was given.')
  }
  switch (column.type) {
    case 'count':
      return parseCount(cell)
    case 'angle':
      return parseAngle(cell)
    case 'text':
      return good(cell)
    case 'section':
      return readSection(cell, units)
    case 'length': {
      const read = parseLength(cell, units)
      return read.ok ? good(cell) : read
    }
    default: {
      const wanted = column.choices?.find(({ value, label }) =>
        [value, label].some((word) => word.toLowerCase() === cell.toLowerCase()),
      )
      return wanted
        ? good(wanted.value)
        : bad(
            'choice',
            `“${cell}” was given; ${column.choices?.map(({ label }) => label).join(' or ') ?? 'nothing'} is possible.`,
          )
    }
  }
}
