import type { NestPiece } from '../nest.ts'
import type { Part, Turn } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { sameSlopes } from './room.ts'
import { edges, extent, type Solid, turnedBy } from './solid.ts'
import { mm, plain } from './words.ts'

const halfTurns: readonly (readonly Turn[])[] = [[], ['over'], ['end'], ['flip']]

/** Every proper turning of a piece; which of them its section allows shows in `across` and `up`. */
const turnings = (solid: Solid): Solid[] =>
  [...halfTurns, ...halfTurns.map((turns) => [...turns, 'quarter+'] as const)].map((turns) =>
    turns.reduce(turnedBy, solid),
  )

const near = (a: Mm, b: Mm): boolean => Math.abs(a - b) <= sameLength

const primaryName = ({ printed }: Part) => (printed.primary === 'edge' ? 'edge' : 'long point')

/** The length by which a part is set and cut: its edge where the ends are parallel, else its long point. */
const primaryOf = (part: Part, solid: Solid): Mm =>
  part.printed.primary === 'edge' ? solid.lead.x - solid.trail.x : extent(solid)

/** The unrounded length of a part, and how far the printed one lies from it. */
const wantedLength = ({ printed, longPoint, edges: lengths }: Part): Mm =>
  printed.primary === 'edge' ? lengths[0] : longPoint

export const rounding = (part: Part): Mm => part.printed.length.mm - wantedLength(part)

/**
 * A piece cut with the exact stops against its part, unrounded: both slopes, the length, and the four edges, in one of the
 * proper turnings. A mirror image is another part. `nominal` is false where the section was measured: the edges of the
 * part are those of the nominal section then.
 */
export function finishedFaults(
  piece: Pick<NestPiece, 'piece'>,
  solid: Solid,
  part: Part,
  nominal: boolean,
): string[] {
  const name = `piece ${piece.piece}`
  const faults: string[] = []
  const { width, height } = part.section
  // A square section may lie on any face, also where the delivery measures a little more one way than the other.
  const wide = Math.max(solid.across, solid.up)
  const laid = turnings(solid).filter(({ across }) => near(width, height) || near(across, wide))
  const sloped = laid.filter(
    ({ lead, trail }) => sameSlopes(lead, part.slopes[0]) && sameSlopes(trail, part.slopes[1]),
  )
  if (sloped.length === 0) {
    const mirror = laid.some(
      ({ lead, trail }) =>
        sameSlopes({ p: -lead.p, q: lead.q }, part.slopes[0]) &&
        sameSlopes({ p: -trail.p, q: trail.q }, part.slopes[1]),
    )
    const slopes = [solid.lead, solid.trail].map(({ p, q }) => `${plain(p)}, ${plain(q)}`).join(' and ')
    faults.push(
      mirror
        ? `${name} comes out as the mirror image of part ${part.mark}`
        : `${name} comes out with ends that slope ${slopes}, which no turning brings to those of part ${part.mark}`,
    )
  }
  const primary = primaryOf(part, solid)
  const length = wantedLength(part)
  if (!near(primary, length))
    faults.push(
      `${name} comes out with ${primaryName(part)} ${mm(primary)}; part ${part.mark} is ${mm(length)} before rounding`,
    )
  if (nominal) {
    const wanted = part.edges
    const alike = turnings(solid)
      .filter(({ across, up }) => near(across, width) && near(up, height))
      .some((each) => edges(each).every((edge, corner) => near(edge, wanted[corner]!)))
    if (!alike)
      faults.push(
        `${name} comes out with edges ${edges(solid).map(mm).join(', ')}; part ${part.mark} has ${wanted.map(mm).join(', ')}`,
      )
  }
  return faults
}

/**
 * The same piece cut with the stops as people read them: its length may be half a reading off, also where the steel
 * ended `missing` mm before the blade did; cut on a wedge, `raised` times as much.
 */
export function printedFaults(
  piece: Pick<NestPiece, 'piece'>,
  solid: Solid,
  missing: Mm,
  part: Part,
  half: Mm,
  raised = 1,
): string[] {
  const primary = primaryOf(part, solid)
  const wanted = part.printed.length.mm
  return [primary, primary - missing]
    .filter((length) => !(Math.abs(length - wanted) <= half * raised + sameLength))
    .slice(0, 1)
    .map(
      (length) =>
        `piece ${piece.piece} comes out with ${primaryName(part)} ${mm(length)} by the printed stops; ` +
        `part ${part.mark} is printed as ${mm(wanted)}, and the shop reads ${mm(2 * half)}`,
    )
}
