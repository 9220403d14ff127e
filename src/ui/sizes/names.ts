import type { ParamSpec } from '../../core/builds/build.ts'
import type { ParamGiven, Params, RowGiven } from '../../core/job.ts'

// Rows that have names, and cells that name them: what a new row is called, what can be chosen, and who follows a
// row that is called otherwise.

const rowsIn = (params: Params, name: string): readonly RowGiven[] => {
  const given = params[name]
  return Array.isArray(given) ? (given as readonly RowGiven[]) : []
}

const cellsOf = (rows: readonly RowGiven[], column: string): readonly string[] =>
  rows.flatMap((row) => {
    const cell = row[column]
    return typeof cell === 'string' || typeof cell === 'number' ? [String(cell)] : []
  })

/** The names that a cell of this column can hold, in the order of their rows. */
export const namesAmong = ({ among }: ParamSpec, params: Params): readonly string[] =>
  among ? cellsOf(rowsIn(params, among.rows), among.column) : []

/**
 * A name for a new row: the first one that no row has yet among those that can be chosen; else the one after the
 * last row's: `f` → `g`, `rail 2` → `rail 3`, `rail` → `rail 2`. The last row's own where nothing is left.
 */
export function newName(column: ParamSpec, rows: readonly RowGiven[], params: Params): string {
  const taken = cellsOf(rows, column.name)
  const last = taken.at(-1) ?? String(column.start)
  if (column.among) return namesAmong(column, params).find((name) => !taken.includes(name)) ?? last
  let name = last
  while (taken.includes(name)) name = nameAfter(name)
  return name
}

function nameAfter(name: string): string {
  const [, before = '', number] = /^(.*?)(\d+)$/.exec(name) ?? []
  if (number !== undefined) return `${before}${Number(number) + 1}`
  if (/^[a-y]$/i.test(name)) return String.fromCharCode(name.charCodeAt(0) + 1)
  return /^[z]$/i.test(name) ? `${name}1` : `${name} 2`
}

/**
 * The parameters that change when one is given anew: itself, and where it is a list whose row got another name, also
 * every cell that names that row. A name that two rows have, before or after, is followed by nobody.
 */
export function withNames(
  specs: readonly ParamSpec[],
  params: Params,
  spec: ParamSpec,
  given: ParamGiven,
): Params {
  const changed: Record<string, ParamGiven> = { [spec.name]: given }
  const before = rowsIn(params, spec.name)
  const after = Array.isArray(given) ? (given as readonly RowGiven[]) : []
  if (before.length !== after.length) return changed
  for (const column of spec.columns ?? []) {
    const renamed = renamedIn(before, after, column)
    if (!renamed) continue
    for (const other of specs) {
      const cells = (other.columns ?? []).filter(
        ({ among }) => among?.rows === spec.name && among.column === column.name,
      )
      if (cells.length === 0) continue
      const rows = other.name === spec.name ? after : rowsIn({ ...params, ...changed }, other.name)
      const names = new Set(cells.map(({ name }) => name))
      changed[other.name] = rows.map(
        (row): RowGiven =>
          Object.fromEntries(
            Object.entries(row).map(([name, cell]) => [
              name,
              names.has(name) && String(cell) === renamed.from ? renamed.to : cell,
            ]),
          ),
      )
    }
  }
  return changed
}

function renamedIn(
  before: readonly RowGiven[],
  after: readonly RowGiven[],
  column: ParamSpec,
): { readonly from: string; readonly to: string } | undefined {
  if (!column.unique || column.among) return undefined
  const [olds, news] = [before, after].map((rows) => rows.map((row) => String(row[column.name] ?? '')))
  const changed = olds!.flatMap((name, k) => (name === news![k] ? [] : [k]))
  // More than one at once is another list, pasted.
  if (changed.length !== 1) return undefined
  const [from, to] = [olds![changed[0]!]!, news![changed[0]!]!]
  const once = (names: readonly string[], name: string) => names.filter((one) => one === name).length === 1
  return to !== '' && once(olds!, from) && once(news!, to) ? { from, to } : undefined
}
