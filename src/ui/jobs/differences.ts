/** One place where two versions of a document differ, in words. */
export interface Difference {
  readonly what: string
  readonly here: string
  readonly there: string
}

const most = 12

const words = (value: unknown): string =>
  value === undefined ? 'nothing' : typeof value === 'string' ? value : JSON.stringify(value)

const plain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Where two documents differ, by path, at most a dozen places. */
export function differences(here: unknown, there: unknown): readonly Difference[] {
  const found: Difference[] = []
  const look = (a: unknown, b: unknown, path: readonly string[]) => {
    if (found.length >= most || JSON.stringify(a) === JSON.stringify(b)) return
    if (plain(a) && plain(b)) {
      for (const name of new Set([...Object.keys(a), ...Object.keys(b)]))
        look(a[name], b[name], [...path, name])
      return
    }
    const what = path.filter((name) => name !== 'build' && name !== 'params').join(', ')
    found.push({ what: what || 'all of it', here: words(a), there: words(b) })
  }
  look(here, there, [])
  return found
}
