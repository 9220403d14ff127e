/** A name longer than any of ours is cut: it stands in a sentence. */
const shortKey = (key: string): string => (key.length > 100 ? `${key.slice(0, 100)}…` : key)

/** Path as it stands in the file: `shop.saws[0].kerf`. */
export function pathText(keys: readonly (string | number)[]): string {
  let path = ''
  for (const key of keys)
    path += typeof key === 'number' ? `[${key}]` : path === '' ? shortKey(key) : `.${shortKey(key)}`
  return path
}

/** A value as the person gave it, short enough to stand in a sentence. */
export function given(value: unknown): string {
  if (typeof value === 'string') {
    const shown = value.length > 40 ? `${value.slice(0, 40)}…` : value
    return JSON.stringify(shown)
  }
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`
  if (typeof value === 'object' && value !== null) return 'an object'
  return String(value)
}
