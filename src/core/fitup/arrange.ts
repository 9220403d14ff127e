import { type Closing, closingAt, type Off } from './closing.ts'
import type { Loop, LoopPiece } from './loops.ts'
import { leanOf } from './recut.ts'

/** Which real piece lies at each place of the ring, and whether it is turned over end for end. */
export interface Place {
  /** The place that the piece has as planned. */
  readonly piece: number
  readonly turned: boolean
}

export interface Arranged {
  readonly places: readonly Place[]
  readonly before: Closing
  readonly after: Closing
}

/** Ends that are planned alike: the piece may be turned over end for end and still be the same part. */
const turns = (piece: LoopPiece): boolean =>
  piece.entry.end !== 'side' &&
  piece.exit.end !== 'side' &&
  Math.abs(leanOf(piece, 'entry') - leanOf(piece, 'exit')) < 1e-6

const put = ({ piece, turned }: Place, offs: readonly Off[]): Off => {
  const { length, entry, exit } = offs[piece]!
  return turned ? { length, entry: exit, exit: entry } : { length, entry, exit }
}

/** Most arrangements that are tried one by one; beyond, pairs are exchanged until no exchange helps. */
const mostTried = 4000

/**
 * The same pieces in the order and turning that closes best at joint `last`: pieces of one mark may change places.
 * Never worse than as they lie.
 */
export function arrange(
  { pieces }: Pick<Loop, 'pieces'>,
  marks: readonly string[],
  offs: readonly Off[],
  last: number,
): Arranged {
  const asLaid: Place[] = pieces.map((_, piece) => ({ piece, turned: false }))
  const closing = (places: readonly Place[]) =>
    closingAt(
      pieces,
      places.map((place) => put(place, offs)),
      last,
    )
  const before = closing(asLaid)
  let best: readonly Place[] = asLaid
  let after = before
  const look = (places: readonly Place[]): boolean => {
    const made = closing(places)
    if (made.worst >= after.worst - 1e-9) return false
    best = places
    after = made
    return true
  }
  if (arrangements(pieces, marks) <= mostTried) each(pieces, marks, look)
  else
    for (let better = true; better; ) {
      better = false
      for (let one = 0; one < pieces.length; one++)
        for (let two = one; two < pieces.length; two++)
          if (marks[one] === marks[two])
            for (const places of exchanged(best, pieces, one, two)) better = look(places) || better
    }
  return { places: best, before, after }
}

function* exchanged(places: readonly Place[], pieces: readonly LoopPiece[], one: number, two: number) {
  const both = [false, true]
  for (const flipOne of turns(pieces[one]!) ? both : [false])
    for (const flipTwo of one !== two && turns(pieces[two]!) ? both : [false]) {
      const made = [...places]
      const turned = (place: Place, flip: boolean) => ({ ...place, turned: place.turned !== flip })
      made[one] = turned(places[two]!, flipOne)
      if (one !== two) made[two] = turned(places[one]!, flipTwo)
      yield made
    }
}

function arrangements(pieces: readonly LoopPiece[], marks: readonly string[]): number {
  const met = new Map<string, number>()
  let count = 1
  for (const [at, mark] of marks.entries()) {
    const nth = (met.get(mark) ?? 0) + 1
    met.set(mark, nth)
    count *= nth * (turns(pieces[at]!) ? 2 : 1)
  }
  return count
}

/** Every arrangement once. */
function each(
  pieces: readonly LoopPiece[],
  marks: readonly string[],
  look: (places: readonly Place[]) => void,
): void {
  const places: Place[] = []
  const used = new Set<number>()
  const fill = (at: number) => {
    if (at === pieces.length) return look([...places])
    for (const [piece, mark] of marks.entries()) {
      if (mark !== marks[at] || used.has(piece)) continue
      used.add(piece)
      for (const turned of turns(pieces[at]!) ? [false, true] : [false]) {
        places.push({ piece, turned })
        fill(at + 1)
        places.pop()
      }
      used.delete(piece)
    }
  }
  fill(0)
}
