import type { Place } from './place.ts'

// The second copy: what was written, kept once more outside the database, as a row of numbered changes after a whole.
// Browsers have been seen to begin a database anew after a kill, with nothing in it and nothing said.

/** One row as a write left it; without a value it was taken away. Keys are those of the database. */
export interface Change {
  readonly store: string
  readonly key: IDBValidKey
  readonly value?: unknown
}

/** `writer`: the device whose database it is, `number`: how many writes it had then. */
export interface Mark {
  readonly kind: 'whole' | 'change'
  readonly writer: string
  readonly number: number
}

const nameOf = ({ kind, writer, number }: Mark): string => `${kind} ${number} ${writer}`

function markOf(name: string): Mark | undefined {
  const [, kind, number, writer] = /^(whole|change) (\d{1,15}) (.+)$/s.exec(name) ?? []
  return kind === undefined
    ? undefined
    : { kind: kind as Mark['kind'], number: Number(number), writer: writer! }
}

/** Wholes first, then in the order of writing. */
const byTime = (a: Mark, b: Mark): number =>
  (a.kind === b.kind ? 0 : a.kind === 'whole' ? -1 : 1) || a.number - b.number

/** What lies there; a name that is none of ours is passed over. */
export const marksIn = async (place: Place): Promise<readonly Mark[]> =>
  (await place.names()).flatMap((name) => markOf(name) ?? []).sort(byTime)

const format = 'tube-copy'

const isChange = (row: unknown): row is Change => {
  const { store, key } = (row ?? {}) as Partial<Change>
  return (
    typeof store === 'string' && (typeof key === 'string' || typeof key === 'number' || Array.isArray(key))
  )
}

/** The rows of one entry; undefined where a kill left it half written, or a newer program wrote it. */
async function rowsOf(place: Place, mark: Mark): Promise<readonly Change[] | undefined> {
  try {
    const read = JSON.parse((await place.read(nameOf(mark))) ?? 'null')
    return read?.format === format &&
      read.version === 1 &&
      Array.isArray(read.rows) &&
      read.rows.every(isChange)
      ? read.rows
      : undefined
  } catch {
    return undefined
  }
}

/**
 * The rows of these entries as the last of them left each, and how many entries could not be read. Of each writer the
 * newest whole that can be read holds all before it: what a kill left lying from before that counts no more.
 */
export async function replay(
  place: Place,
  marks: readonly Mark[],
): Promise<{ readonly rows: readonly Change[]; readonly unread: number }> {
  const all = await Promise.all(marks.map(async (mark) => ({ mark, rows: await rowsOf(place, mark) })))
  const whole = new Map<string, number>()
  for (const { mark, rows } of all)
    if (rows && mark.kind === 'whole')
      whole.set(mark.writer, Math.max(mark.number, whole.get(mark.writer) ?? 0))
  const from = ({ mark: { kind, writer, number } }: (typeof all)[number]): boolean => {
    const start = whole.get(writer) ?? -1
    return kind === 'whole' ? number >= start : number > start
  }
  const counting = all.filter(from)
  const last = new Map<string, Change>()
  for (const { rows = [] } of counting)
    for (const row of rows) last.set(JSON.stringify([row.store, row.key]), row)
  return { rows: [...last.values()], unread: counting.filter(({ rows }) => rows === undefined).length }
}

/** Lays one entry down. */
export async function keep(place: Place, mark: Mark, rows: readonly Change[]): Promise<void> {
  await place.write(nameOf(mark), JSON.stringify({ format, version: 1, rows }))
}

/** A whole in place of all that it holds. What came before goes only once the whole has been read back. */
export async function keepWhole(place: Place, mark: Mark, rows: readonly Change[]): Promise<void> {
  const before = await marksIn(place)
  await keep(place, mark, rows)
  const back = await rowsOf(place, mark)
  if (back?.length !== rows.length) throw new Error('The second copy was not kept as it was given.')
  for (const old of before) {
    const isNewer = old.writer === mark.writer && old.number > mark.number
    if (!isNewer && nameOf(old) !== nameOf(mark)) await place.remove(nameOf(old))
  }
}

/** Whether the row of entries up to this mark is long or has a hole, so that a whole should be laid down. */
export function wantsWhole(marks: readonly Mark[], writer: string, number: number): boolean {
  const own = marks.filter((mark) => mark.writer === writer)
  const whole = Math.max(-1, ...own.filter(({ kind }) => kind === 'whole').map((mark) => mark.number))
  const changes = own.filter((mark) => mark.kind === 'change' && mark.number > whole).length
  return own.length < marks.length || whole < 0 || changes > mostChanges || changes < number - whole
}

const mostChanges = 300
