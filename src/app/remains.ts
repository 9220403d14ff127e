import { stickName } from '../core/facts/rack.ts'
import type { Progress, RackPiece } from '../core/facts.ts'
import type { Nest, NestSection, NestStick, StickEnd } from '../core/nest.ts'
import { front, kerfAt, sameSlopes, square } from '../core/stick-room.ts'
import { fromSteps, stepsDown, stepsUp } from '../core/units.ts'
import { blankSteps } from './recut.ts'
import { type StickNow, stickNow } from './stick-now.ts'

/**
 * What is left of the sticks of these nests that went on the saw, as steel for a plan of what is still open. Nothing is
 * written for it: the rest of stick S1 of a nest is named by both, `NEST/S1`. A stick whose drop was kept or is scrap is
 * told by that, one that a later nest has opened by that nest; what is shorter than `least` is scrap.
 */
export function remainsOf(nests: readonly Nest[], progress: Progress, least: number): readonly RackPiece[] {
  const taken = new Set(Object.values(progress.opened))
  const settled = new Set([...progress.kept, ...progress.scrapped])
  return nests.flatMap((nest) =>
    nest.sections.flatMap((section) =>
      section.sticks.flatMap((stick): readonly RackPiece[] => {
        const id = stickName(nest.id, stick.id)
        if (!(id in progress.opened) || settled.has(id) || taken.has(id)) return []
        const rest = restOf(nest, section, stick, progress)
        if (rest === undefined || rest.length < least || rest.length <= 0) return []
        return [{ id, section: section.section, length: rest.length, ends: rest.ends, from: 'drop' }]
      }),
    ),
  )
}

/** What was taken off a stick: pieces made, and pieces spoiled. */
interface Taken {
  readonly mark: string
  readonly key: string
  /** As measured; absent for a piece that came out as planned. */
  readonly took?: number
}

/**
 * What is left of a stick, mm; undefined where steel was cut off it of which the nest does not know the length. Counted
 * in whole steps from what was really cut off: the clean-up cut of its end, then each piece and a kerf behind it.
 */
export function restOf(
  nest: Nest,
  section: NestSection,
  stick: NestStick,
  { made, spoiled, loaded }: Pick<Progress, 'made' | 'spoiled' | 'loaded' | 'opened'>,
): StickNow | undefined {
  const now = stickNow(nest.id, stick, { loaded } as Progress)
  const off = ({ nest: of, from }: { readonly nest?: string; readonly from: object }) =>
    of === nest.id && 'stick' in from && from.stick === stick.id
  const taken: readonly Taken[] = [
    ...made.filter(off).map(({ mark, key }) => ({ mark, key })),
    ...spoiled.filter(off),
  ]
  if (taken.length === 0) return now
  const angled = stick.pieces.some(({ ends }) => ends.some((end) => !sameSlopes(end, square)))
  return angled ? angledRest(section, stick, now, taken) : squareRest(section, stick, now, taken)
}

/** Square cuts may be made in any order. */
function squareRest(
  section: NestSection,
  stick: NestStick,
  now: StickNow,
  taken: readonly Taken[],
): StickNow | undefined {
  let left = stepsDown(now.length) - stepsUp(front(section, now.ends[0], square))
  for (const { mark, key, took } of taken) {
    const length = took ?? pieceLength(section, stick, mark, key)
    // Steel of a mark that this nest does not have: how much is left is not known, so nothing is said.
    if (length === undefined) return undefined
    left -= stepsUp(length) + stepsUp(section.kerf)
  }
  return { length: fromSteps(Math.max(0, left)), ends: ['cut', now.ends[1]] }
}

/** Slanted cuts are shared by neighbors, so they are made in the order of the nest. */
function angledRest(
  section: NestSection,
  stick: NestStick,
  now: StickNow,
  taken: readonly Taken[],
): StickNow | undefined {
  const good = taken.filter(({ took }) => took === undefined)
  const cut = stick.pieces.slice(0, good.length)
  const marks = (of: readonly { readonly mark: string }[]) =>
    JSON.stringify(of.map(({ mark }) => mark).sort())
  if (marks(cut) !== marks(good)) return undefined
  const first = stick.pieces[0]!.ends[0]
  const last = cut.at(-1)?.ends[1]
  const slope = last ?? first
  const end: StickEnd = sameSlopes(slope, square) ? 'cut' : { p: slope.p, q: slope.q }
  const after = last
    ? last.x + (now.length - stick.length) - kerfAt(section.kerf, last)
    : now.length - front(section, now.ends[0], first)
  const spoilt = taken.flatMap(({ took }) => took ?? [])
  // Behind a piece that went wrong the end is what it is: it is cleaned up before anything is cut from it.
  const ends: StickNow['ends'] = [spoilt.length > 0 ? 'mill' : end, now.ends[1]]
  const lost = spoilt.reduce((sum, took) => sum + took + kerfAt(section.kerf, slope), 0)
  return { length: fromSteps(Math.max(0, stepsDown(after - lost))), ends }
}

/** Length of what leaves the stick for a mark: a blank says its own, since that of a pair is longer, all others are alike. */
export function pieceLength(
  section: NestSection,
  stick: NestStick,
  mark: string,
  key = '',
): number | undefined {
  const blank = blankSteps(key)
  if (blank !== undefined) return fromSteps(blank)
  const all = [...stick.pieces, ...section.sticks.flatMap((other) => other.pieces)]
  const piece = all.find((one) => one.mark === mark)
  return piece && Math.abs(piece.ends[0].x - piece.ends[1].x)
}
