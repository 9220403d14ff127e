/** A table as it goes to other programs: heads, then rows of text and numbers. */
export interface TableOut {
  readonly heads: readonly string[]
  readonly rows: readonly (readonly (string | number)[])[]
}

/**
 * One cell. A text that a spreadsheet would take for a formula gets an apostrophe in front: names come from files of
 * others. A number never does.
 */
function cell(value: string | number): string {
  const text = typeof value === 'string' && /^[=+\-@\t\r]/.test(value) ? `'${value}` : String(value)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

/** As RFC 4180 has it: lines end in CR LF, a cell with a comma, a quote or a line end stands in quotes. */
export const csvOf = ({ heads, rows }: TableOut): string =>
  [heads, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')

/** For a message or a note: cells apart by tabs, which spreadsheets take apart again. */
export const plainOf = ({ heads, rows }: TableOut): string =>
  [heads, ...rows].map((row) => row.map((value) => String(value).replace(/\s+/g, ' ')).join('\t')).join('\n')
