import type { BenchCut } from '../core/plan-shapes.ts'
import type { Mm } from '../core/units.ts'
import { pictureHigh, pictureWide } from './bench-picture.tsx'
import { bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'
import { thirdFigure } from './wall-figures.ts'

// The pictures of a set-up and its words, beside them and below.

/** One set-up serves both ends of its pieces. */
export const bothEnds = (group: readonly BenchCut[]): boolean =>
  group.some(({ product }) => product.kind === 'half') &&
  group.some(({ product }) => product.kind === 'piece')

/** A first and a second end are both drawn where nothing is seen from the side; else one cut is like the next. */
export function drawnOf(group: readonly BenchCut[]): readonly BenchCut[] {
  if (thirdFigure(group[0]!.setUp)) return [group[0]!]
  const second = bothEnds(group) ? group.find(({ product }) => product.kind === 'piece') : undefined
  return second ? [group[0]!, second] : [group[0]!]
}

/** Pictures side by side over the words, or one picture with the words beside it. */
const picturesOf = (drawn: readonly BenchCut[]): number =>
  drawn.length + (thirdFigure(drawn[0]!.setUp) && drawn.length === 1 ? 1 : 0)

/** Room for the words of a set-up: beside its one picture, or under both. */
export const wordsWide = (drawn: readonly BenchCut[], page: PageSize): Mm =>
  picturesOf(drawn) === 1 ? bodyWide(page) - pictureWide - 4 : bodyWide(page)

/** Lines that stand beside one picture, or under two, before the others follow below at full width. */
const linesWith = (drawn: readonly BenchCut[]): number => (picturesOf(drawn) === 1 ? 5 : 3)
const linesBelow = 4

/** As many sentences as have room in so many lines, at least one; then the rest. */
function takeLines(words: readonly string[], first: string, most: number, wide: Mm): [string[], string[]] {
  let count = 0
  while (count < words.length && linesOf([first, ...words.slice(0, count + 1)].join(' '), wide) <= most)
    count += 1
  return [words.slice(0, count), words.slice(count)]
}

/** Words of a set-up: those with its pictures, and those below in paragraphs of a few lines, so that a page can turn. */
export function spread(
  stage: string,
  words: readonly string[],
  drawn: readonly BenchCut[],
  page: PageSize,
): { readonly beside: readonly string[]; readonly below: readonly string[] } {
  const [beside, rest] = takeLines(words, `${stage}, continued.`, linesWith(drawn), wordsWide(drawn, page))
  const below: string[] = []
  for (let left = rest; left.length > 0; ) {
    const [taken, after] = takeLines(left, '', linesBelow, bodyWide(page))
    below.push((taken.length > 0 ? taken : left.slice(0, 1)).join(' '))
    left = taken.length > 0 ? after : left.slice(1)
  }
  return { beside, below }
}

/** Pictures and the words with them. */
export function underFigures(
  stage: string,
  beside: readonly string[],
  drawn: readonly BenchCut[],
  page: PageSize,
): Mm {
  const lines = linesOf([`${stage}, continued.`, ...beside].join(' '), wordsWide(drawn, page))
  return picturesOf(drawn) === 1 ? Math.max(pictureHigh, lines * lineHigh) : pictureHigh + lines * lineHigh
}
