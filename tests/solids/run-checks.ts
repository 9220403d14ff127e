// What came off the saw against what was wanted: with exact stops the frame's own steel, with printed stops lengths
// within half a reading and the built sizes that the plan states; and what the set-up records say of each cut.
import type { Frame, Member } from '../../src/core/frame/frame.ts'
import { type Nest, piecesIn } from '../../src/core/nest.ts'
import type { Part, Plan, Run } from '../../src/core/plan-shapes.ts'
import { lengthSlack } from './frame-checks.ts'
import { extent, reach, type Solid, surfaceOf } from './kernel.ts'
import { unlike } from './same.ts'
import { unlikeRound } from './same-round.ts'
import type { Cut, Sawn } from './saw.ts'
import { ofEachShape, ownSolid } from './solid.ts'

/** Share of its volume by which a piece may differ from the frame's. */
export const solidShare = 1e-6

/** Pieces that the planner leaves to be done by hand. */
export const leftOf = (run: Run | undefined) => run?.left ?? []

const piecesOf = (nest: Nest) =>
  nest.sections.flatMap(({ sticks }) =>
    sticks.flatMap(({ pieces }) =>
      pieces.flatMap((entry) => piecesIn(entry).map((piece) => ({ ...entry, ...piece }))),
    ),
  )

/** Every piece of the nest, cut with exact stops, against the members of its part. */
export function pieceFaults(
  { members }: Pick<Frame, 'members'>,
  parts: readonly Part[],
  nest: Nest,
  left: readonly string[],
  sawn: Sawn,
): string[] {
  const byId = new Map(members.map((member) => [member.id, member]))
  const faults: string[] = []
  const proved = new Set<string>()
  for (const part of parts) {
    const [first, ...others] = ofEachShape(part.members.map((id) => byId.get(id)!))
    // A saddle is worked by hand, after the saw's plane.
    const round = isRound(first!)
    const drawn = (member: Member) =>
      ownSolid(withoutSaddles(member), round ? 'box' : 'steel', round ? 16 : 2)
    const compare = (one: Solid, two: Solid) =>
      round ? unlikeRound(one, two, first!.section.width / 2, solidShare) : unlike(one, two, solidShare)
    const target = drawn(first!)
    // Members of one mark must be one solid, before any of them is cut.
    for (const member of others) {
      const { share, mirror } = compare(drawn(member), target)
      if (share > solidShare)
        faults.push(`${member.id} and ${first!.id} are both part ${part.mark}, but ${say(share, mirror)}`)
    }
    for (const { piece } of piecesOf(nest).filter(({ mark }) => mark === part.mark)) {
      if (left.includes(piece)) continue
      const real = sawn.made.get(piece)
      if (!real) {
        faults.push(`piece ${piece} did not come off the saw`)
        continue
      }
      // Equal pieces from one set-up lie alike; each is compared, but only once with booleans.
      const print = `${part.mark} ${corners(real.steel)}`
      if (proved.has(print)) continue
      const { share, mirror } = compare(round ? real.box : real.steel, target)
      if (share > solidShare)
        faults.push(`piece ${piece} comes off the saw as no ${first!.id}: ${say(share, mirror)}`)
      else proved.add(print)
    }
  }
  return faults
}

const isRound = ({ section }: Member) => section.kind.startsWith('round')

const withoutSaddles = (member: Member): Member => ({
  ...member,
  ends: member.ends.map(({ point, normal }) => ({ point, normal })) as unknown as Member['ends'],
})

const say = (share: number, mirror: boolean) =>
  mirror ? 'it is the mirror image' : `${share.toExponential(2)} of its volume differs`

/** Corners as they lie, from the least of each coordinate, to 1e-7 mm. */
function corners(solid: Solid): string {
  const { min } = solid.boundingBox()
  return surfaceOf(solid)
    .points.map((point) => point.map((c, axis) => Math.round((c - min[axis]!) * 1e7)).join(' '))
    .sort()
    .join(' ')
}

/**
 * Lengths and built sizes by the printed stops. `half` of the reading is what rounding a stop may do along the fence: a
 * piece that lies on a wedge of angle b is then off by half/cos b along itself. `blunt`: blanks have no allowance, so that
 * the stop of the first miter, rounded too, may leave as much of the blank's square end at the long point.
 */
export function builtFaults(
  { frame, parts, sizes, run }: Plan,
  nest: Nest,
  sawn: Sawn,
  half: number,
  blunt: boolean,
): string[] {
  const faults: string[] = []
  const lengths = new Map<string, readonly [number, number]>()
  const rooms = new Map<string, number>()
  const left = new Set(leftOf(run).map(({ piece }) => piece))
  const steepest = new Map<string, number>()
  for (const { ramp, pieces } of run?.setUps ?? [])
    for (const id of pieces) steepest.set(id, Math.max(steepest.get(id) ?? 0, Math.abs(ramp)))
  for (const part of parts) {
    const own = piecesOf(nest).filter(
      ({ mark, piece }) => mark === part.mark && !left.has(piece) && sawn.made.has(piece),
    )
    const real = own.map(({ piece }) => primary(sawn.made.get(piece)!.box, part))
    if (real.length === 0) continue
    const ramp = Math.max(...own.map(({ piece }) => steepest.get(piece) ?? 0))
    const square = !blunt || own.every(({ blank }) => blank === undefined)
    const room = half / Math.cos((ramp * Math.PI) / 180) + (square ? 0 : half)
    const range = [Math.min(...real), Math.max(...real)] as const
    for (const id of part.members) {
      lengths.set(id, range)
      rooms.set(id, room)
    }
    const wanted = part.printed.length.mm
    if (range.some((length) => !(Math.abs(length - wanted) <= room + lengthSlack)))
      faults.push(
        `part ${part.mark} comes off the saw ${range.join(' to ')} long by the printed stops; printed is ${wanted}`,
      )
  }
  frame.measures.forEach((measure, at) => {
    const built = sizes[at]!.built
    if (!measure.terms.every(({ member }) => lengths.has(member))) return
    const ends = ([0, 1] as const).map((which) =>
      measure.terms.reduce((sum, { member, factor }) => {
        const range = lengths.get(member)!
        return sum + factor * range[factor > 0 ? which : 1 - which]!
      }, measure.offset),
    )
    const room = measure.terms.reduce(
      (sum, { member, factor }) => sum + Math.abs(factor) * rooms.get(member)!,
      0,
    )
    if (ends.some((size) => !(Math.abs(size - built) <= room + lengthSlack)))
      faults.push(`${measure.name} comes out as ${ends.join(' to ')}; stated as built is ${built}`)
  })
  return faults
}

/** The length by which a part is set and cut, on its sharp box as it lies along u. */
function primary(solid: Solid, { printed }: Part): number {
  const surface = surfaceOf(solid)
  if (printed.primary === 'long point') return extent(surface, [1, 0, 0])
  const { min } = solid.boundingBox()
  const edge = surface.points.filter(
    ([, y, z]) => Math.abs(y - min[1]!) < lengthSlack && Math.abs(z - min[2]!) < lengthSlack,
  )
  const xs = edge.map(([x]) => x)
  return Math.max(...xs) - Math.min(...xs)
}

/** The side that the record says is longer, against the steel as it lay at the cut. */
export function recordFaults(cuts: readonly Cut[]): string[] {
  return cuts.flatMap(({ setUp, keep, kept }) => {
    if (setUp.roll !== 0 || setUp.ramp !== 0 || setUp.tilt !== 0) return []
    const { points } = surfaceOf(kept.box)
    const least = Math.min(...points.map(([, y]) => y))
    const most = reach({ points, triangles: [] }, [0, 1, 0])
    const length = (at: number) => {
      const xs = points.filter(([, y]) => Math.abs(y - at) < lengthSlack).map(([x]) => x)
      return Math.max(...xs) - Math.min(...xs)
    }
    const longer = length(least) - length(most)
    const says = setUp.longSide === 'fence' ? 1 : -1
    return longer * says < -lengthSlack
      ? [`set-up ${setUp.id} says the long side of ${keep} is ${setUp.longSide}; it lies the other way`]
      : []
  })
}
