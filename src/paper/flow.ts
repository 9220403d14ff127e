import type { Mm } from '../core/units.ts'

/** Something that stays in one piece on a page. */
export interface Strip<T> {
  readonly high: Mm
  readonly what: T
}

/** A heading with strips under it: the heading is said again where the strips go on over the page. */
export interface Block<Head, T> {
  readonly head: Strip<Head>
  readonly strips: readonly Strip<T>[]
  /** Not parted over two pages, unless it is higher than one. */
  readonly whole?: true
}

const highOf = <Head, T>({ head, strips }: Block<Head, T>): Mm =>
  strips.reduce((sum, strip) => sum + strip.high, head.high)

/** What stands on a page: a heading, again or for the first time, with its strips. */
export interface Laid<Head, T> {
  readonly head: Head
  readonly again: boolean
  readonly strips: readonly T[]
}

/**
 * Lays blocks on pages of the given height, in order. A heading never stands alone at the foot of a page. A strip that
 * is higher than a page stands on a page of its own; sheets are made so that there is none.
 */
export function flow<Head, T>(blocks: readonly Block<Head, T>[], high: Mm): Laid<Head, T>[][] {
  const pages: Laid<Head, T>[][] = [[]]
  let left = high
  const turn = () => {
    pages.push([])
    left = high
  }
  for (const block of blocks) {
    const { head, strips } = block
    const together = block.whole ? highOf(block) : head.high + (strips[0]?.high ?? 0)
    if (pages.at(-1)!.length > 0 && left < together) turn()
    let on: T[] = []
    pages.at(-1)!.push({ head: head.what, again: false, strips: on })
    left -= head.high
    for (const strip of strips) {
      if (strip.high > left && on.length > 0) {
        turn()
        on = []
        pages.at(-1)!.push({ head: head.what, again: true, strips: on })
        left -= head.high
      }
      on.push(strip.what)
      left -= strip.high
    }
  }
  return pages
}
