import type { AngleShown, Shown } from '../../core/plan-shapes.ts'
import { inch } from '../../core/units.ts'

/** Text, a number, or a length or an angle as a person reads it; empty text where nothing is known. */
export type Cell = string | number | Shown | AngleShown

/** A table as it goes to other programs: heads, then rows. */
export interface TableOut {
  readonly heads: readonly string[]
  readonly rows: readonly (readonly Cell[])[]
}

/** Decimals that hold every 1/64 in, every 0.001 mm and every tenth of a degree. */
const places = 6

const plainNumber = (value: number): number => Number(value.toFixed(places))

/** A length is a number in its own unit, an angle one in degrees: a program reads no `9 5/8`. */
function plainValue(cell: Cell): string | number {
  if (typeof cell === 'string') return cell
  if (typeof cell === 'number') return plainNumber(cell)
  if ('deg' in cell) return plainNumber(cell.deg)
  return plainNumber(cell.unit === 'in' ? cell.mm / inch : cell.mm)
}

const unitIn = (cell: Cell | undefined): string | undefined =>
  typeof cell !== 'object' ? undefined : 'deg' in cell ? 'deg' : cell.unit

/** `long point (in)`: the unit of a column stands in its head. */
const withUnits = ({ heads, rows }: TableOut): readonly string[] =>
  heads.map((head, at) => {
    const unit = rows.map((row) => unitIn(row[at])).find((one) => one !== undefined)
    return unit ? `${head} (${unit})` : head
  })

/**
 * One cell. A text that a spreadsheet would take for a formula gets an apostrophe in front: names come from files of
 * others. A number never does.
 */
function csvCell(value: string | number): string {
  const text = typeof value === 'string' && /^[=+\-@\t\r]/.test(value) ? `'${value}` : String(value)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

/** As RFC 4180 has it: lines end in CR LF, a cell with a comma, a quote or a line end stands in quotes. */
export const csvOf = (table: TableOut): string =>
  [withUnits(table), ...table.rows.map((row) => row.map(plainValue))]
    .map((row) => `${row.map(csvCell).join(',')}\r\n`)
    .join('')

function said(cell: Cell): string {
  if (typeof cell !== 'object') return String(cell)
  if ('deg' in cell) return cell.text
  return `${cell.text} ${cell.unit}${cell.lies ? ` ${cell.lies}` : ''}`
}

/** For a message or a note, lengths as they are read: cells apart by tabs, which spreadsheets take apart again. */
export const plainOf = ({ heads, rows }: TableOut): string =>
  [heads, ...rows].map((row) => row.map((cell) => said(cell).replace(/\s+/g, ' ')).join('\t')).join('\n')
