import { type Nest, type NestPiece, piecesIn } from '../nest.ts'
import type { Part, Program, Run, SetUp, StickFace, Turn } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import type { Replayed, ReplayedCut } from './replay.ts'
import { sameSlopes } from './room.ts'
import { mirroredX, type Solid, turnedBy } from './solid.ts'

/** A direction square to the axis, (y, z): where the weld seam of a tube looks. */
type Look = readonly [number, number]

const looks: Readonly<Record<NonNullable<SetUp['seam']>, Look>> = {
  up: [0, 1],
  down: [0, -1],
  fence: [-1, 0],
  outward: [1, 0],
}

const faceOf: Readonly<Record<StickFace, Look>> = { '+z': [0, 1], '-z': [0, -1], '-y': [-1, 0], '+y': [1, 0] }

/** The same rotations as of the workpiece, on y and z alone. */
function turned([y, z]: Look, turn: Turn): Look {
  switch (turn) {
    case 'over':
      return [-y, -z]
    case 'end':
      return [-y, z]
    case 'flip':
      return [y, -z]
    case 'quarter+':
      return [-z, y]
    case 'quarter-':
      return [z, -y]
  }
}

const turnedAll = (look: Look, turns: readonly Turn[]): Look => turns.reduce(turned, look)
const same = (one: Look, two: Look): boolean => one[0] === two[0] && one[1] === two[1]

const halves: readonly (readonly Turn[])[] = [[], ['over'], ['end'], ['flip']]
const turnings = [...halves, ...halves.map((turns) => [...turns, 'quarter+'] as const)]

/**
 * Where the weld seam is pinned: the record of the first cut on a blank says where it looks, it goes round with every turn
 * after that, each later record must say the same, and on the finished piece it must lie on a face of the part that the
 * piece's member allows. Piece k of a mark is for member k of each copy.
 */
export function seamFaults(
  { setUps }: Run,
  nest: Nest,
  parts: readonly Part[],
  replayed: Replayed,
): string[] {
  const byKey = new Map(parts.map((part) => [part.key, part]))
  const records = new Map(setUps.map((setUp) => [setUp.id, setUp]))
  const cuts = new Map(
    replayed.cuts.flatMap((cut) => [
      [cut.keep, cut] as const,
      ...(cut.second ? [[cut.second, cut] as const] : []),
    ]),
  )
  const { looks: atCut, faults } = stickLooks(replayed, records)
  const onPieces = nest.sections.flatMap(({ sticks }) =>
    sticks.flatMap(({ pieces }) =>
      pieces.flatMap((entry) =>
        piecesIn(entry).flatMap((piece) => {
          const part = byKey.get(piece.key)
          const allowed = part ? allowedFor(part, piece) : []
          if (!part || allowed.length === 0) return []
          if (entry.blank !== undefined) {
            const chain = chainOf(piece, entry.blank, cuts)
            return chain.length === 0 ? [] : pieceFaults(piece, part, allowed, chain, records)
          }
          const cut = cuts.get(piece.piece)
          // Square ends at both sides: it may be turned to any side.
          if (!cut || part.shape === 'square') return []
          const look = atCut.get(piece.piece)
          if (!look) return [`piece ${piece.piece}: no set-up says where its weld seam lies`]
          return sideFaults(piece, part, allowed, cut, look)
        }),
      ),
    ),
  )
  return [...faults, ...onPieces]
}

/**
 * Where the seam of the stick looks at each cut off it. The record says it for the first of its cuts in every program; from
 * there it goes round with the turns.
 */
function stickLooks(replayed: Replayed, records: ReadonlyMap<string, SetUp>) {
  const looksAt = new Map<string, Look>()
  const faults: string[] = []
  /** By what lies on the saw: the look that it was unloaded with. */
  const lying = new Map<string, Look>()
  const programs = [...new Set(replayed.cuts.map(({ program }) => program))]
  for (const program of programs) {
    let look = lying.get(program.load)
    let setUp: string | undefined
    for (const step of program.steps) {
      if ('turn' in step && look) look = turned(look, step.turn)
      if ('unload' in step && look) lying.set(step.unload, look)
      if (!('cut' in step)) continue
      const own = step.setUp === setUp ? undefined : records.get(step.setUp)?.seam
      setUp = step.setUp
      if (own && !look) look = looks[own]
      else if (own && look && !same(looks[own], look))
        faults.push(
          `cut ${step.cut.keep}: set-up ${step.setUp} says that the weld seam looks ${own}; it does not`,
        )
      if (look) looksAt.set(step.cut.keep, look)
      // What is cut off and loaded again is followed from its own first record.
    }
  }
  return { looks: looksAt, faults }
}

type Finished = Pick<NestPiece, 'piece'>

const allowedFor = ({ seam, count, mark }: Part, { piece }: Finished): readonly StickFace[] =>
  seam?.[(Number(piece.slice(mark.length)) - 1) % count] ?? []

/** Cuts from the blank to the piece. */
function chainOf({ piece }: Finished, blank: string, cuts: ReadonlyMap<string, ReplayedCut>): ReplayedCut[] {
  const chain: ReplayedCut[] = []
  for (let id: string | undefined = piece; id !== undefined && id !== blank; ) {
    const cut = cuts.get(id)
    if (!cut || chain.includes(cut)) return []
    chain.unshift(cut)
    id = cut.program.load
  }
  return chain
}

function pieceFaults(
  { piece }: Finished,
  part: Part,
  allowed: readonly StickFace[],
  chain: readonly ReplayedCut[],
  records: ReadonlyMap<string, SetUp>,
): string[] {
  const said = chain.map((cut) => records.get(cut.setUp)?.seam)
  if (said[0] === undefined) return [`piece ${piece}: no set-up says where its weld seam lies`]
  let look = looks[said[0]]
  for (const [at, cut] of chain.slice(1).entries()) {
    look = turnedAll(look, turnsBefore(cut.program, cut.keep))
    const own = said[at + 1]
    // One set-up for both ends speaks of the first.
    if (own !== undefined && cut.setUp !== chain[0]!.setUp && !same(looks[own], look))
      return [`piece ${piece}: set-up ${cut.setUp} says that its weld seam looks ${own}; it does not`]
  }
  return sideFaults({ piece }, part, allowed, chain.at(-1)!, look)
}

/** The finished piece as its last cut left it, its seam looking there, beside the faces that its part allows. */
function sideFaults(
  { piece }: Finished,
  part: Part,
  allowed: readonly StickFace[],
  { kept, rest, second, program }: ReplayedCut,
  look: Look,
): string[] {
  const made = second === piece ? rest : kept
  // What a stop at the right makes is seen in a mirror along x, which leaves y and z as they are.
  const solid = program.stopSide === 'left' ? made : mirroredX(made)
  const right = turnings
    .filter((turns) => isPart(turns.reduce(turnedBy, solid), part))
    .some((turns) => allowed.some((face) => same(faceOf[face], turnedAll(look, turns))))
  return right ? [] : [`piece ${piece}: its weld seam comes out on another side than it is pinned to`]
}

const turnsBefore = ({ steps }: Program, keep: string): Turn[] => {
  const turns: Turn[] = []
  for (const step of steps) {
    if ('turn' in step) turns.push(step.turn)
    if ('cut' in step && step.cut.keep === keep) break
  }
  return turns
}

const isPart = ({ lead, trail, across, up }: Solid, { slopes, section }: Part): boolean =>
  sameSlopes(lead, slopes[0]) &&
  sameSlopes(trail, slopes[1]) &&
  (Math.abs(section.width - section.height) <= sameLength || across > up)
