/** Plain data: what stands in a stored document. */
type Plain = Readonly<Record<string, unknown>>

const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/**
 * A change that was made on an older version, carried over to the one that stands now: what differs between `seen` and
 * `wanted` is changed, all else stays as it is now. Lists are gone through element by element as long as none has grown
 * or shrunk; else the list that is wanted stands. Versions are plain data; none is changed.
 */
export function rebased<T>(now: T, seen: T, wanted: T): T {
  if (Object.is(seen, wanted)) return now
  if (Array.isArray(now) && Array.isArray(seen) && Array.isArray(wanted)) {
    if (now.length !== seen.length || seen.length !== wanted.length) return wanted
    return wanted.map((each, at) => rebased<unknown>(now[at], seen[at], each)) as T
  }
  if (!isPlain(now) || !isPlain(seen) || !isPlain(wanted)) return wanted
  const [a, b, c]: Plain[] = [now, seen, wanted]
  const entries = [...new Set([...Object.keys(now), ...Object.keys(wanted)])].map(
    (key) => [key, rebased(a![key], b![key], c![key])] as const,
  )
  return Object.fromEntries(entries.filter(([, value]) => value !== undefined)) as T
}
