import type { NestPiece, NestSection, NestStick } from '../nest.ts'
import { sameLength } from '../tolerance.ts'
import { fromSteps, type Mm, stepsDown, stepsUp } from '../units.ts'
import {
  exactly,
  front,
  junction,
  kerfAlong,
  mostSteps,
  sameSlopes,
  slopeOfEnd,
  square,
  type Terms,
  tail,
  wedge,
} from './room.ts'
import { mm } from './words.ts'

/**
 * The pieces of every stick in order from the leading end, x = length, on: clean-up cuts, pieces, kerfs and drop add up
 * to the stick, in whole steps of 1/1600 mm, with no steel unaccounted for.
 */
export function layoutFaults(section: NestSection): string[] {
  return section.sticks.flatMap((stick) => {
    const faults = isUncut(stick) ? uncutFaults(stick) : stickFaults(section, stick)
    return faults.map((fault) => `stick ${stick.id}: ${fault}`)
  })
}

/** A rack piece, both ends cut, that is one part as it lies there: no cut, so no clean-up, no kerf, nothing to hold. */
function isUncut({ from, ends, length, pieces }: NestStick): boolean {
  const [piece] = pieces
  if (!piece || pieces.length > 1) return false
  if (from !== 'rack' || ends[0] !== 'cut' || ends[1] !== 'cut') return false
  const [lead, trail] = piece.ends
  if (!sameSlopes(lead, square) || !sameSlopes(trail, square)) return false
  const mid = lead.x - trail.x
  return stepsUp(mid) === stepsDown(length) || Math.abs(mid - length) <= sameLength
}

function uncutFaults({ length, drop, pieces }: NestStick): string[] {
  const [lead, trail] = pieces[0]!.ends
  const faults: string[] = []
  // The stick may be a fraction of a step longer than what is counted.
  if (!(trail.x >= -sameLength && lead.x <= length + sameLength))
    faults.push(`piece ${pieces[0]!.piece} used uncut does not lie within the ${mm(length)}`)
  if (drop !== 0) faults.push(`a drop of ${mm(drop)} is stated; a piece used uncut leaves none`)
  return faults
}

function stickFaults(section: NestSection, stick: NestStick): string[] {
  const [first] = stick.pieces
  const last = stick.pieces.at(-1)
  if (!first || !last) return ['nothing is cut from it']
  const faults: string[] = []
  for (const piece of stick.pieces) faults.push(...pieceFaults(section, piece))
  const length = fromSteps(stepsDown(stick.length))
  faults.push(
    ...exact(
      `before piece ${first.piece}`,
      length - first.ends[0].x,
      front(section, stick.ends[0], first.ends[0]),
    ),
  )
  for (const [index, piece] of stick.pieces.entries()) {
    const before = stick.pieces[index - 1]
    if (!before) continue
    const room = before.ends[1].x - piece.ends[0].x
    const between = `between ${before.piece} and ${piece.piece}`
    if (room < 0)
      faults.push(`${before.piece} and ${piece.piece} overlap, or stand out of order, by ${mm(-room)}`)
    else faults.push(...exact(between, room, junction(section, before.ends[1], piece.ends[0])))
  }
  const least = exactly(tail(section, stick.ends[1], last.ends[1]))
  if (!(last.ends[1].x >= least - sameLength))
    faults.push(`${mm(last.ends[1].x)} stay behind piece ${last.piece}; ${mm(least)} are needed there`)
  return [...faults, ...dropFaults(section, stick, last)]
}

function pieceFaults({ section }: NestSection, { piece, ends }: NestPiece): string[] {
  const shortest = ends[0].x - ends[1].x - wedge(section, ends[0], ends[1])
  return shortest > 0 ? [] : [`piece ${piece}: its shortest edge would be ${mm(shortest)}`]
}

/** The room is what is needed, rounded up once or term by term: less would be missing, more is steel lost from sight. */
function exact(where: string, room: Mm, needed: Terms): string[] {
  if (!(room >= exactly(needed) - sameLength))
    return [`${mm(room)} ${where}; ${mm(exactly(needed))} are needed there`]
  const most = fromSteps(mostSteps(needed))
  if (!(room <= most + sameLength)) return [`${mm(room - most)} ${where} are not accounted for`]
  return []
}

/** The drop on its short side after the last cut; a blade that runs out of the steel leaves none. */
function dropFaults({ section, kerf }: NestSection, { ends, drop }: NestStick, last: NestPiece): string[] {
  const trail = last.ends[1]
  const gone: Terms = [kerfAlong(kerf, trail), wedge(section, trail, slopeOfEnd(ends[1]))]
  const most = Math.max(0, trail.x - exactly(gone))
  const least = Math.max(0, fromSteps(stepsDown(trail.x) - mostSteps(gone)))
  if (drop >= least - sameLength && drop <= most + sameLength) return []
  return [`a drop of ${mm(drop)} is stated; pieces and kerfs leave ${mm(most)}`]
}
