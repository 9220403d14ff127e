import type { ParamSpec } from '../../core/builds/build.ts'

/** A column of the text that is a column of ours, and the unit of its bare numbers where its head names one. */
export interface Head {
  readonly column: ParamSpec
  readonly unit?: 'in' | 'mm'
}

/** Words that stand over such columns in other people's lists. Common practice. */
const otherWords: Readonly<Record<string, readonly string[]>> = {
  count: ['quantity', 'qty', 'pieces', 'pcs', 'pc', 'number', 'nos', 'no', 'how many', 'each', 'ea'],
  length: ['cut length', 'long point', 'len', 'long', 'size', 'cut to'],
  a: ['angle a', 'miter a', 'first end', 'end 1', 'angle 1', 'left end'],
  b: ['angle b', 'miter b', 'second end', 'end 2', 'angle 2', 'right end'],
  section: ['profile', 'material', 'tube', 'stock'],
}

const units: Readonly<Record<string, 'in' | 'mm'>> = {
  mm: 'mm',
  millimeters: 'mm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
}

/** `Length (mm)` as its words and its unit. */
function partsOf(cell: string): { readonly words: string; readonly unit?: 'in' | 'mm' } {
  const found = /[\s([,]+(mm|millimeters|in|inch|inches|")[\s)\].]*$/i.exec(cell)
  const unit = found && units[found[1]!.toLowerCase()]
  const plain = (found ? cell.slice(0, found.index) : cell).toLowerCase()
  const words = plain.replace(/[^\p{L}\p{N}]+/gu, ' ').trim()
  return unit ? { words, unit } : { words }
}

function columnOf(words: string, columns: readonly ParamSpec[]): ParamSpec | undefined {
  const plain = (text: string) => partsOf(text).words
  return (
    columns.find(({ name, label }) => [name, label].some((word) => plain(word) === words)) ??
    columns.find(({ name }) => otherWords[name]?.includes(words))
  )
}

/**
 * Which of our columns each cell of a first line names, `null` for one that names none; undefined when the line is no
 * line of heads. A line of words only is one, unless rows may be of words only: then each must name a column.
 */
export function headsOf(
  cells: readonly string[],
  columns: readonly ParamSpec[],
): readonly (Head | null)[] | undefined {
  const taken = new Set<ParamSpec>()
  const heads = cells.map((cell): Head | null => {
    const { words, unit } = partsOf(cell)
    const column = columnOf(words, columns)
    if (!column || taken.has(column)) return null
    taken.add(column)
    return unit ? { column, unit } : { column }
  })
  const numbers = columns.some(({ type, optional }) => numeric.includes(type) && !optional)
  if (numbers ? taken.size >= 2 || cells.every((cell) => !/\d/.test(cell)) : heads.every(Boolean))
    return taken.size > 0 ? heads : columns.map((column) => ({ column }))
  return undefined
}

const numeric: readonly ParamSpec['type'][] = ['count', 'length', 'angle']
