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
  if (text.length > longestPaste)
    return bad('paste-long', `This has ${text.length} letters; at most ${longestPaste} are read at once.`)
  const lines = cellsOf(text)
    .map((cells, at) => ({ cells, number: at + 1 }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''))
  const first = lines[0]
  if (first && isHead(first.cells, columns)) lines.shift()
  if (lines.length === 0) return bad('paste-empty', 'There is no row in what was pasted.')
  if (lines.length > mostRows)
    return bad(
      'paste-rows',
      `There are ${lines.length} rows in what was pasted; at most ${mostRows} are possible.`,
    )
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

/** More than any cut list has. */
const longestPaste = 500_000
const mostRows = 2000
const longestCell = 200

/** Tabs part the cells of a text that has any, else semicolons, else commas, line by line. */
const separatorOf = (line: string): string => (line.includes('\t') ? '\t' : line.includes(';') ? ';' : ',')

/** The cell in quotes that begins at `start`, if it ends before a separator or the end of its line. */
function quotedAt(text: string, start: number, by: string): { cell: string; end: number } | undefined {
  let cell = ''
  for (let at = start + 1; at < text.length; at++) {
    if (text[at] !== '"') cell += text[at]
    else if (text[at + 1] === '"') {
      cell += '"'
      at += 1
    } else {
      let end = at + 1
      while (text[end] === ' ' || text[end] === '\r') end += 1
      const ends = end >= text.length || text[end] === by || text[end] === '\n'
      return ends ? { cell, end } : undefined
    }
  }
  return undefined
}

/**
 * Cells of each line. A cell may stand in quotes, as RFC 4180 has it: separators and line ends within are part of it,
 * and two quotes are one. A quote that does not both begin and end a cell is an inch mark, and stays.
 */
function cellsOf(text: string): readonly (readonly string[])[] {
  const rows: string[][] = []
  let row: string[] = []
  let by = ''
  // Each quote without an end is looked for through the whole text: a thousand of them are enough.
  let patience = 1000
  for (let at = 0; at <= text.length; at++) {
    if (by === '') {
      const lineEnd = text.indexOf('\n', at)
      by = separatorOf(text.slice(at, lineEnd < 0 ? text.length : lineEnd))
    }
    while (text[at] === ' ') at += 1
    const quoted = text[at] === '"' && patience > 0 ? quotedAt(text, at, by) : undefined
    if (text[at] === '"' && !quoted) patience -= 1
    let end = quoted?.end ?? at
    while (end < text.length && text[end] !== by && text[end] !== '\n') end += 1
    row.push((quoted ? quoted.cell : text.slice(at, end)).trim())
    at = end
    if (at < text.length && text[at] === by) continue
    rows.push(row)
    row = []
    by = ''
  }
  return rows
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
  if (cell.length > longestCell)
    return bad('too-long', `this cell has ${cell.length} letters; at most ${longestCell} are possible.`)
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
