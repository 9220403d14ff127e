import type { Part, Shown } from '../plan-shapes.ts'
import { showLength } from '../reading/show.ts'
import { isRound } from '../section/section.ts'
import type { Reading } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** One line along the tube: an edge, or a quarter line of a round one. */
export interface LayOutLine {
  /** From the square end of the blank or bar to the first cut line, mm, and as it is read. */
  readonly start: Mm
  readonly from: Shown
  /** From there along this line to the other cut line. */
  readonly length: Shown
  readonly run: Mm
}

/** How a piece is marked out by hand on square-ended steel. */
export interface LayOut {
  /** Four, going round the tube in the order of the faces. */
  readonly lines: readonly LayOutLine[]
  readonly round: boolean
  /** Both ends are square: one length all round. */
  readonly square: boolean
}

/**
 * Where the two cut lines of a part cross its four edges (a round tube: four lines a quarter turn apart), measured from one
 * square end of the steel: first from the end, then along each edge. Unrounded but for what is read.
 */
export function layOutOf({ section, slopes, mid }: Part, reading: Reading): LayOut {
  const { width, height } = section
  const [w, h] = [width / 2, height / 2]
  // As the part lies in a stick: the greater side across.
  const [y, z] = height > width ? [h, w] : [w, h]
  const round = isRound(section)
  const corners = round
    ? [
        [y, 0],
        [0, z],
        [-y, 0],
        [0, -z],
      ]
    : [
        [y, z],
        [-y, z],
        [-y, -z],
        [y, -z],
      ]
  const at = (end: 0 | 1, [across, up]: readonly number[]) => slopes[end].p * across! + slopes[end].q * up!
  const tip = round
    ? Math.hypot(slopes[0].p * y, slopes[0].q * z)
    : Math.max(...corners.map((corner) => at(0, corner)))
  const lines = corners.map((corner): LayOutLine => {
    const start = tip - at(0, corner)
    const run = mid + at(0, corner) - at(1, corner)
    return { start, run, from: plain(start, reading), length: plain(run, reading) }
  })
  const square = lines.every(
    ({ start, run }) => Math.abs(start) <= sameLength && Math.abs(run - lines[0]!.run) <= sameLength,
  )
  return { lines, round, square }
}

function plain(mm: Mm, reading: Reading): Shown {
  const shown = showLength(Math.max(0, mm), reading)
  return { mm: shown.mm, text: shown.text, unit: shown.unit }
}
