import type { Member } from '../frame/frame.ts'
import { edgesOf, type Face } from '../frame/member.ts'
import { outermost } from '../frame/round-end.ts'
import type { Polygon } from '../geometry/polygon.ts'
import { isRound } from '../section/section.ts'
import type { Mm } from '../units.ts'
import { inTurn } from './part-faces.ts'

/** What lands on an unrolled face: x from the outermost steel at end A, v upward from the middle of the face. */
export interface Place {
  readonly face: Face
  readonly mark: string
  readonly outline: Polygon
}

/** Places this near to each other are marked at one, mm. */
const alike = 0.1

/** Half steps are moved aside, so that floating point does not part what is the same. */
const step = (mm: Mm): number => Math.floor(mm / alike + 0.501)

/** More corners than this are a curve: it is known by the rectangle round it. */
const mostCorners = 12

function cornersOf(outline: Polygon): Polygon {
  if (outline.length <= mostCorners) return outline
  const [xs, vs] = [outline.map(([x]) => x), outline.map(([, v]) => v)]
  return [
    [Math.min(...xs), Math.min(...vs)],
    [Math.max(...xs), Math.max(...vs)],
  ]
}

/**
 * Two pieces of one geometry with the same key are marked out alike, whichever way each of them happens to lie: the least
 * of what is seen when the piece is rolled over its faces and turned end for end.
 */
export function placeKey(of: Member, places: readonly Place[]): string {
  const { width, height } = of.section
  const start = outermost(of, 'A')
  const length = outermost(of, 'B') - start
  const { a, b } = edgesOf(of)
  // The long edge at the upper rim of each face: in turn, as the documents count them.
  const rims = ([0, 1, 2, 3] as const).map((edge) => [a[edge] - start, b[edge] - start] as const)
  const even = isRound(of.section) || Math.abs(width - height) < alike
  // The wide faces of a flat section are 0 and 2, whichever of its sizes is called its width.
  const rolls = even ? [0, 1, 2, 3] : width > height ? [0, 2] : [1, 3]
  const seen = [false, true].flatMap((swapped) =>
    rolls.map((roll) => {
      const ends = rims.map((_, k) => {
        const [from, to] = rims[(swapped ? roll + 5 - k : k - roll + 4) % 4]!
        return swapped ? [step(length - to), step(length - from)] : [step(from), step(to)]
      })
      const landed = places.map(({ face, mark, outline }) => {
        const at = inTurn.indexOf(face)
        const points = cornersOf(outline).map(([x, v]) =>
          swapped ? `${step(length - x)} ${step(-v)}` : `${step(x)} ${step(v)}`,
        )
        return `${((swapped ? 4 - at : at) + roll) % 4} ${mark} ${points.sort().join(', ')}`
      })
      return JSON.stringify([ends, landed.sort()])
    }),
  )
  return seen.sort()[0]!
}
