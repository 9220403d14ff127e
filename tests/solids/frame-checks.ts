// What must be true of every frame, measured on its solids: nothing overlaps, ends lie on what they meet, edges and mass
// are those of the steel, the whole is as large as it says, feet stand in one plane. Each check gives faults in words.
import type { Frame, Member, Warning } from '../../src/core/frame/frame.ts'
import type { Part, PlatePart } from '../../src/core/plan-shapes.ts'
import { isMechanical } from '../../src/core/section/corner.ts'
import { common, extent, reach, type Solid, type Surface, surfaceOf } from './kernel.ts'
import { facetsOf, liesOn } from './near.ts'
import { outlineOf } from './outline.ts'
import { box, chordLoss, drawnArea, steel } from './section.ts'
import { holeFlats, memberSolid, ofEachShape, ownSolid, plateSolid } from './solid.ts'

/** Share of a volume that two parts may have in common. */
export const overlapShare = 1e-6
/** Share of a cut outline that must lie on its mate. */
export const outlineShare = 0.999
/** Lengths measured on solids, mm: the kernel keeps corners of a frame of some meters to about 1e-9. */
export const lengthSlack = 1e-6
/** How far from its mate a point of an outline may lie, mm; round saddles may have more, by the issue. */
export const mateSlack = 1e-5
export const saddleSlack = 0.05

export interface Body {
  readonly id: string
  readonly solid: Solid
  readonly surface: Surface
  readonly volume: number
}

/** Chords to the quarter of a round member. */
const bodyChords = 64

/** Members as the boxes that bound them, plates with their holes. */
export function bodiesOf({ members, plates }: Pick<Frame, 'members' | 'plates'>): Body[] {
  const body = (id: string, solid: Solid): Body => ({
    id,
    solid,
    surface: surfaceOf(solid),
    volume: solid.volume(),
  })
  return [
    ...members.map((member) => body(member.id, memberSolid(member, 'box', bodyChords))),
    ...plates.map((plate) => body(plate.id, plateSolid(plate))),
  ]
}

/** Pairs with more in common than the share of the lesser one that rounding explains. */
export function overlapFaults(bodies: readonly Body[]): string[] {
  return bodies.flatMap((one, at) =>
    bodies.slice(at + 1).flatMap((two) => {
      if (!boxesMeet(one.solid, two.solid)) return []
      const shared = common(one.solid, two.solid).volume()
      const share = shared / Math.min(one.volume, two.volume)
      return share > overlapShare
        ? [
            `${one.id} and ${two.id} have ${shared.toFixed(3)} mm³ in common, ${share.toExponential(1)} of the lesser`,
          ]
        : []
    }),
  )
}

function boxesMeet(one: Solid, two: Solid): boolean {
  const [a, b] = [one.boundingBox(), two.boundingBox()]
  return [0, 1, 2].every((axis) => a.min[axis]! < b.max[axis]! && b.min[axis]! < a.max[axis]!)
}

const isSaddled = ({ ends }: Member) => ends.some(({ saddle }) => saddle !== undefined)
const isRound = ({ section }: Member) => section.kind.startsWith('round')

/** Warnings that tell the person of an end that hangs past what it meets. */
const saidToHang = ['landing-past-the-face', 'arm-wider-than-post', 'leg-past-the-frame']

/**
 * Ends whose outline does not lie on the faces of what they meet, a root gap apart. Of two ends that meet each other,
 * the lesser must lie on the greater. A landing that hangs past a face is let pass where a warning names it.
 */
export function outlineFaults(frame: Frame, bodies: readonly Body[], warnings: readonly Warning[]): string[] {
  const facets = new Map(bodies.map(({ id, surface }) => [id, facetsOf(surface)]))
  const members = new Map(frame.members.map((member) => [member.id, member]))
  const told = new Set(
    warnings.filter(({ code }) => saidToHang.includes(code)).flatMap((warning) => warning.members ?? []),
  )
  /** Share of the outline of an end that lies on the surfaces of these bodies. */
  const lying = (member: Member, end: 0 | 1, on: readonly string[], gap: number): number => {
    const saddle = member.ends[end].saddle !== undefined
    // A cap on round tube is drawn with as many corners as its proof has patience for.
    const capped = isRound(member) && on.some((id) => !members.has(id))
    const slack =
      saddle || capped || on.some((id) => members.has(id) && isRound(members.get(id)!))
        ? saddleSlack
        : mateSlack
    // An open miter is gap/cos(miter) wide along the edges of the faces beside it: twice the gap at 60°.
    const open = 2 * gap
    const targets = on.flatMap((id) => facets.get(id) ?? [])
    const points = outlineOf(member, end)
    const good = points.filter(
      (point) => liesOn(point, targets, gap, slack, open) || liesOn(point, targets, 0, slack, open),
    )
    return good.length / points.length
  }
  return frame.members.flatMap((member) =>
    ([0, 1] as const).flatMap((end) => {
      const on = matesOf(frame, member, end)
      if (on.length === 0) return []
      const share = lying(member, end, on, member.gap)
      if (share >= outlineShare || told.has(member.id)) return []
      const back = on.some((id) => {
        const mate = members.get(id)
        if (!mate) return false
        return ([0, 1] as const).some(
          (other) =>
            matesOf(frame, mate, other).includes(member.id) &&
            lying(mate, other, [member.id], mate.gap) >= outlineShare,
        )
      })
      return back
        ? []
        : [
            `end ${'AB'[end]} of ${member.id}: ${(100 * share).toFixed(1)} % of its outline lies on ${on.join(', ')}`,
          ]
    }),
  )
}

/** Everything that an end meets: its mate, and whatever else its joints name. */
function matesOf({ joints }: Frame, member: Member, end: 0 | 1): string[] {
  const name = end === 0 ? 'A' : 'B'
  const jointed = joints
    .filter(({ members, ends }) => members.some((id, at) => id === member.id && ends[at] === name))
    .flatMap(({ members }) => members.filter((id) => id !== member.id))
  const mate = member.mates[end]
  const own = mate === 'open' || mate === 'floor' ? [] : [mate]
  return [...new Set([...own, ...jointed])]
}

/** The four long edges of every member against those of its part; equal members may lie turned. */
export function edgeFaults({ members }: Pick<Frame, 'members'>, parts: readonly Part[]): string[] {
  const byId = new Map(members.map((member) => [member.id, member]))
  return parts.flatMap((part) =>
    ofEachShape(part.members.map((id) => byId.get(id)!)).flatMap((member, at) => {
      const { id } = member
      const long = extent(surfaceOf(ownSolid(member, 'box', bodyChords)), [1, 0, 0])
      const faults =
        Math.abs(long - part.longPoint) <= longSlack(member)
          ? []
          : [`${id}: long point of the solid ${long}, of part ${part.mark} ${part.longPoint}`]
      if (isRound(member)) return faults
      const real = edgesOf(member)
      const [one, two] = at === 0 ? [real, part.edges] : [sorted(real), sorted(part.edges)]
      if (one.some((length, edge) => !(Math.abs(length - two[edge]!) <= lengthSlack)))
        faults.push(`${id}: edges of the solid ${show(real)}, of part ${part.mark} ${show(part.edges)}`)
      return faults
    }),
  )
}

/** How far inside its outline the flats of a round member may lie at both ends together, mm. */
function roundSlack({ section, ends }: Member, flats: number): number {
  const steep = ends.reduce((sum, { normal }) => sum + 1 / Math.abs(normal[0]), 0)
  return lengthSlack + (section.width / 2) * steep * (1 - Math.cos(Math.PI / flats))
}

/** What the long point of a solid may lack, mm; a saddle is the least exactly drawn. */
function longSlack(member: Member): number {
  if (!isRound(member)) return lengthSlack
  return isSaddled(member) ? saddleSlack : roundSlack(member, 4 * bodyChords)
}

const sorted = (lengths: readonly number[]) => [...lengths].sort((a, b) => a - b)
const show = (lengths: readonly number[]) => lengths.map((length) => length.toFixed(6)).join(', ')

/** Lengths of the long edges as the corners of the solid give them: +y+z, −y+z, −y−z, +y−z. */
export function edgesOf(member: Member): number[] {
  const { points } = surfaceOf(ownSolid(member, 'box'))
  return box(member.section)[0]!.map(([y, z]) => {
    const xs = points.filter((point) => Math.hypot(point[1] - y, point[2] - z) < lengthSlack).map(([x]) => x)
    return Math.max(...xs) - Math.min(...xs)
  })
}

/** The extents that the frame states, and its floor, against the whole of its solids. */
export function sizeFaults(
  { members, size, floor }: Pick<Frame, 'members' | 'size' | 'floor'>,
  bodies: readonly Body[],
): string[] {
  const points = bodies.flatMap(({ surface }) => surface.points)
  const whole: Surface = { points, triangles: [] }
  const real = [extent(whole, [1, 0, 0]), extent(whole, [0, 1, 0]), reach(whole, [0, 0, 1]) - floor]
  // Round ends are drawn by chords that lie a little inside them.
  const slack = Math.max(
    lengthSlack,
    ...members.filter(isRound).map((member) => roundSlack(member, 4 * bodyChords)),
  )
  const under = -reach(whole, [0, 0, -1]) - floor
  return [
    ...(real.some((length, axis) => !(Math.abs(length - size[axis]!) <= slack))
      ? [`the whole measures ${show(real)}; stated is ${show(size)}`]
      : []),
    ...(under < -lengthSlack ? [`steel reaches ${(-under).toFixed(6)} below the floor`] : []),
  ]
}

/** Ends that stand on the floor and caps under ends: flat, in one plane, nothing below them, at most a leveler away. */
export function footFaults(frame: Frame, bodies: readonly Body[]): string[] {
  const lowest = Math.min(...bodies.map(({ surface }) => -reach(surface, [0, 0, -1])))
  const caps = new Set(
    frame.joints.filter(({ kind }) => kind === 'cap').flatMap(({ members }) => members.slice(1)),
  )
  const feet: { readonly id: string; readonly zs: readonly number[] }[] = []
  for (const member of frame.members)
    for (const end of [0, 1] as const)
      if (member.mates[end] === 'floor')
        feet.push({ id: member.id, zs: outlineOf(member, end).map(([, , z]) => z) })
  for (const plate of frame.plates) {
    if (!caps.has(plate.id)) continue
    const { points } = bodies.find(({ id }) => id === plate.id)!.surface
    const down = Math.min(...points.map(([, , z]) => z))
    // A cap on an upright end looks down when the member that it closes lies above it.
    const under = plate.on.every((id) => {
      const above = bodies.find((body) => body.id === id)
      return above !== undefined && -reach(above.surface, [0, 0, -1]) > down + plate.thickness / 2
    })
    if (!under) continue
    const outer = points.filter(([, , z]) => z < down + plate.thickness / 2)
    feet.push({ id: plate.id, zs: outer.map(([, , z]) => z) })
  }
  return feet.flatMap(({ id, zs }) => {
    const off = Math.max(...zs.map((z) => Math.abs(z - lowest)))
    return off > lengthSlack ? [`foot ${id} stands ${off.toFixed(6)} off the plane of the lowest steel`] : []
  })
}

/** Share by which masses may differ: the kernel moves corners by up to 1e-9 mm, and small arcs have many of them. */
const massShare = 1e-7

/** Density of steel, kg/mm³ (7850 kg/m³, EN 1993-1-1). */
const density = 7850e-9
/** Mechanical tube is listed at 3.4 lb/ft for each square inch, corners sharp: kg/mm³. */
const listed = (3.4 * 0.45359237) / 304.8 / 25.4 ** 2

/** Mass of every part and plate against density × volume of its solid; what chords leave off is added by its formula. */
export function massFaults(
  { members, plates }: Pick<Frame, 'members' | 'plates'>,
  parts: readonly Part[],
  plateParts: readonly PlatePart[],
): string[] {
  const byId = new Map(members.map((member) => [member.id, member]))
  const faults: string[] = []
  for (const part of parts)
    for (const member of ofEachShape(part.members.map((id) => byId.get(id)!))) {
      const sharp = isMechanical(member.section)
      const section = sharp ? { ...member.section, cornerRadius: 0 } : member.section
      // Through a saddle the chords of the tube show; elsewhere their loss is the same all along.
      const saddled = isSaddled(member)
      const chords = saddled ? 64 : 4
      const drawn = drawnArea(steel(section, chords))
      const solid = ownSolid({ ...member, section }, 'steel', chords)
      const volume = (solid.volume() * (drawn + chordLoss(section, chords))) / drawn
      const mass = volume * (sharp ? listed : density)
      if (Math.abs(mass / part.mass - 1) > (saddled ? 1e-5 : massShare))
        faults.push(
          `${member.id}: its solid weighs ${mass.toFixed(6)} kg, part ${part.mark} ${part.mass.toFixed(6)} kg`,
        )
    }
  for (const plate of plates) {
    // The two halves of a slot's ends make one round hole.
    const rounds = [...plate.holes, ...(plate.slots ?? []).map(({ width }) => [0, 0, width] as const)]
    const holes = rounds.reduce((sum, [, , diameter]) => {
      const chords = holeFlats / 4
      const short = Math.PI / 4 - (chords / 2) * Math.sin(Math.PI / (2 * chords))
      return sum + 4 * short * (diameter / 2) ** 2
    }, 0)
    const mass = (plateSolid(plate).volume() - holes * plate.thickness) * density
    const stated = plateParts.find(({ id }) => id === plate.id)?.mass ?? Number.NaN
    if (!(Math.abs(mass / stated - 1) <= 1e-9))
      faults.push(`${plate.id}: its solid weighs ${mass.toFixed(6)} kg, stated is ${stated.toFixed(6)} kg`)
  }
  return faults
}
