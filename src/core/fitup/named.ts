/** Several names in few words: `Arm 1, Arm 2, Arm 3` is `Arm 1, 2 and 3`. */
export function together(names: readonly string[]): string {
  const stems = new Map<string, string[]>()
  for (const name of names) {
    const [, stem, number] = /^(.*?)\s*(\d*)$/.exec(name)!
    const numbers = stems.get(stem!) ?? []
    if (number) numbers.push(number)
    stems.set(stem!, numbers)
  }
  return [...stems]
    .map(([stem, numbers]) => `${stem}${numbers.length > 0 ? ' ' : ''}${listed(numbers)}`)
    .join(', ')
}

/** `1, 2 and 3`. */
export const listed = (of: readonly (string | number)[]): string =>
  of.length < 2 ? of.join('') : `${of.slice(0, -1).join(', ')} and ${of.at(-1)}`
