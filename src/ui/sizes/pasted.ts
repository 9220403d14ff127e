import type { ParamSpec } from '../../core/builds/build.ts'
import type { RowGiven } from '../../core/job.ts'
import { parseAngle, parseCount, parseLength } from '../../core/reading/parse.ts'
import { bad, good, type Result } from '../../core/result.ts'
import { readSection } from '../../core/section/typed.ts'
import { type Line, linesOf } from './cells.ts'
import { type Head, headsOf } from './heads.ts'

/** One line of a pasted list: the row that it is, or in words why it is none. */
export interface PastedLine {
  readonly number: number
  /** As it came. */
  readonly text: string
  readonly row?: RowGiven
  readonly problems: readonly string[]
}

/** What was understood of a pasted list. Lines without anything in them are left out. */
export interface Pasted {
  readonly lines: readonly PastedLine[]
  /** The line of heads as it came, where there is one. */
  readonly head?: string
  /** Heads of columns that are none of ours: nothing of them is taken. */
  readonly passed: readonly string[]
}

/** More than any cut list has. */
const longestPaste = 500_000
const mostRows = 2000
const longestCell = 200

/**
 * Looks at a pasted text: one row per line, in the order of the columns (count, length, end A, end B, section, …), or
 * as a first line of heads says. Missing angles are square, a missing count is one. Where one column alone makes a row
 * (the length of a cut list), a line of one cell is that, with `4 x` or `4 pcs` before it for a count. Fails only where
 * there is no row to be looked at.
 */
export function lookAtPasted(
  text: string,
  columns: readonly ParamSpec[],
  units: 'in' | 'mm',
): Result<Pasted> {
  if (text.length > longestPaste)
    return bad('paste-long', `This has ${text.length} letters; at most ${longestPaste} are read at once.`)
  const lines = linesOf(text).filter(({ cells }) => cells.some((cell) => cell !== ''))
  // Some spreadsheets say in a first line what parts the cells.
  if (/^"?sep=.{0,2}$/.test(lines[0]?.text ?? '')) lines.shift()
  const first = lines[0]
  const named = first && headsOf(first.cells, columns)
  if (named) lines.shift()
  if (lines.length === 0) return bad('paste-empty', 'There is no row in what was pasted.')
  if (lines.length > mostRows)
    return bad(
      'paste-rows',
      `There are ${lines.length} rows in what was pasted; at most ${mostRows} are possible.`,
    )
  const heads = named ?? columns.map((column) => ({ column }))
  const missing = columns.filter(
    (column) => mustBeGiven(column) && !heads.some((head) => head?.column === column),
  )
  if (missing.length > 0)
    return bad(
      'paste-heads',
      `No head of the first line says ${missing.map(({ label }) => inSentence(label)).join(' or ')}. Name the column so, or leave the heads out.`,
    )
  const only = columns.filter(mustBeGiven)
  const single = named === undefined && only.length === 1 ? only[0] : undefined
  return good({
    lines: lines.map((line) => lineOf(single ? apart(line, columns, single) : line, heads, columns, units)),
    ...(named && first && { head: first.text }),
    passed: named && first ? first.cells.filter((cell, at) => cell !== '' && !named[at]) : [],
  })
}

/** `End A` as `end A`. */
export const inSentence = (label: string): string => label.slice(0, 1).toLowerCase() + label.slice(1)

/** Without this one there is no row; what is missing of the others has a usual value. */
const mustBeGiven = ({ type, optional }: ParamSpec): boolean =>
  !optional && type !== 'count' && type !== 'angle'

/** `4 x 24`, `4 pcs 24`, `24`: a line of one cell as the cells that it means. */
function apart(line: Line, columns: readonly ParamSpec[], single: ParamSpec): Line {
  const given = line.cells.filter((cell) => cell !== '')
  if (given.length !== 1 || line.cells[0] !== given[0]) return line
  const [, count = '', rest = given[0]!] =
    /^(\d{1,6})\s*(?:[x×@]|(?:pcs?|pieces|off|ea)\b\.?(?:\s*(?:of|at|@))?)\s*(.+)$/i.exec(given[0]!) ?? []
  return {
    ...line,
    cells: columns.map((column) => (column === single ? rest : column.type === 'count' ? count : '')),
  }
}

function lineOf(
  { number, text, cells }: Line,
  heads: readonly (Head | null)[],
  columns: readonly ParamSpec[],
  units: 'in' | 'mm',
): PastedLine {
  const problems: string[] = []
  if (cells.some((cell, at) => cell !== '' && at >= heads.length))
    problems.push(
      `Line ${number} has ${cells.length} cells; ${heads.length} are possible: ${heads.map((head) => (head && inSentence(head.column.label)) ?? 'one that is passed over').join(', ')}.`,
    )
  const row: Record<string, RowGiven[string]> = {}
  for (const column of columns) {
    const at = heads.findIndex((head) => head?.column === column)
    const read = readCell(cells[at] ?? '', column, units, heads[at]?.unit)
    if (!read.ok)
      problems.push(`Line ${number}, ${inSentence(column.label)}: ${read.problems[0]?.text ?? ''}`)
    else if (read.value !== undefined) row[column.name] = read.value
  }
  return problems.length > 0 ? { number, text, problems } : { number, text, row, problems }
}

/** A count or an angle within what its column allows. */
function within(read: Result<number>, { least, most, why }: ParamSpec): Result<number> {
  if (!read.ok) return read
  const outside = read.value < (least ?? -Infinity) || read.value > (most ?? Infinity)
  return outside ? bad('outside', `${read.value} is given; ${why ?? 'that is not possible'}.`) : read
}

/** `600` under a head that says mm is 600 mm, also in a shop that reads inches. */
const withUnit = (cell: string, unit: 'in' | 'mm' | undefined): string =>
  unit === undefined || /[\p{L}'"′″]/u.test(cell) ? cell : `${cell} ${unit}`

function readCell(
  cell: string,
  column: ParamSpec,
  units: 'in' | 'mm',
  unit: 'in' | 'mm' | undefined,
): Result<RowGiven[string] | undefined> {
  if (cell === '') {
    if (column.optional) return good(undefined)
    if (column.type === 'angle') return good(0)
    if (column.type === 'count') return good(1)
    return bad('missing', 'nothing is given.')
  }
  if (cell.length > longestCell)
    return bad('too-long', `this cell has ${cell.length} letters; at most ${longestCell} are possible.`)
  switch (column.type) {
    case 'count':
      return within(parseCount(cell), column)
    case 'angle':
      return within(parseAngle(cell), column)
    case 'text':
      return good(cell)
    case 'section':
      return readSection(cell, units)
    case 'length': {
      const given = withUnit(cell, unit)
      const read = parseLength(given, units)
      return read.ok ? good(given) : read
    }
    default: {
      const wanted = column.choices?.find(({ value, label }) =>
        [value, label].some((word) => word.toLowerCase() === cell.toLowerCase()),
      )
      return wanted
        ? good(wanted.value)
        : bad(
            'choice',
            `“${cell}” is given; ${column.choices?.map(({ label }) => label).join(' or ') ?? 'nothing'} is possible.`,
          )
    }
  }
}
