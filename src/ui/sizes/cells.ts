/** One line of a pasted list; `text` is all of it as it came, `number` its place in the text, from 1. */
export interface Line {
  readonly number: number
  readonly text: string
  readonly cells: readonly string[]
}

/**
 * Tabs part the cells of a line that has any, else semicolons, else commas, else two spaces or more, as a list copied
 * from a drawing has them.
 */
function separatorOf(line: string): string {
  if (line.includes('\t')) return '\t'
  if (line.includes(';')) return ';'
  return line.includes(',') ? ',' : '  '
}

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
      while (by !== '  ' && (text[end] === ' ' || text[end] === '\r')) end += 1
      const ends = end >= text.length || text.startsWith(by, end) || text[end] === '\n'
      return ends ? { cell, end } : undefined
    }
  }
  return undefined
}

/**
 * Cells of each line. A cell may stand in quotes, as RFC 4180 has it: separators and line ends within are part of it,
 * and two quotes are one. A quote that does not both begin and end a cell is an inch mark, and stays.
 */
export function linesOf(text: string): readonly Line[] {
  const lines: Line[] = []
  let cells: string[] = []
  let by = ''
  let start = 0
  // Each quote without an end is looked for through the whole text: a thousand of them are enough.
  let patience = 1000
  for (let at = 0; at <= text.length; at++) {
    while (text[at] === ' ' || text[at] === '\uFEFF') at += 1
    if (by === '') {
      const lineEnd = text.indexOf('\n', at)
      by = separatorOf(text.slice(at, lineEnd < 0 ? text.length : lineEnd).trimEnd())
    }
    const quoted = text[at] === '"' && patience > 0 ? quotedAt(text, at, by) : undefined
    if (text[at] === '"' && !quoted) patience -= 1
    let end = quoted?.end ?? at
    while (end < text.length && !text.startsWith(by, end) && text[end] !== '\n') end += 1
    cells.push((quoted ? quoted.cell : text.slice(at, end)).trim())
    at = end
    if (at < text.length && text[at] !== '\n') continue
    lines.push({ number: lines.length + 1, text: text.slice(start, at).replace(/\r$/, ''), cells })
    cells = []
    by = ''
    start = at + 1
  }
  return lines
}
