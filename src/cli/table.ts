/** Rows of text in columns as wide as their widest cell, two spaces apart; numbers to the right where `right` says so. */
export function table(rows: readonly (readonly string[])[], right: readonly number[] = []): string[] {
  const widths: number[] = []
  for (const row of rows)
    row.forEach((cell, at) => {
      widths[at] = Math.max(widths[at] ?? 0, [...cell].length)
    })
  return rows.map((row) =>
    row
      .map((cell, at) => {
        const room = ' '.repeat((widths[at] ?? 0) - [...cell].length)
        return right.includes(at) ? room + cell : cell + room
      })
      .join('  ')
      .trimEnd(),
  )
}
