import { sectionKey } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Cut, Visit } from './visit.ts'

// Square cuts of equal tubes may be made side by side, as many as the saw takes. Miters never: side by side moves the long
// point.

/** Sections that lie flat against each other in a vise. */
const lieTogether: readonly string[] = ['square-tube', 'rect-tube', 'square-bar', 'flat-bar']

/**
 * The visits with those side by side that are alike from loading to unloading: same saw, same section, the same cuts in the
 * same order. Each of them follows the one that it lies beside, and names its workpiece. A workpiece that comes back to
 * the saw is never taken up before it was put down.
 */
export function sideBySide(visits: readonly Visit[]): readonly Visit[] {
  if (visits.every(({ saw }) => (saw.gang ?? 1) < 2)) return visits
  const left = [...visits]
  // What is still to be put down, and what was cleaned up in a visit of its own: that one stands right before.
  const waiting = new Set(visits.flatMap(({ leaves }) => (leaves && leaves !== 'scrap' ? [leaves.id] : [])))
  const cleaned = new Set(
    visits.flatMap(({ cleanUpLast, leaves }) =>
      cleanUpLast && leaves && leaves !== 'scrap' ? [leaves.id] : [],
    ),
  )
  const may = (visit: Visit) => mayLieBeside(visit) && !cleaned.has(visit.load)
  const ordered: Visit[] = []
  for (let first = left.shift(); first; first = left.shift()) {
    const gang: Visit[] = [first]
    for (let at = 0; may(first) && at < left.length && gang.length < (first.saw.gang ?? 1); ) {
      const other = left[at]!
      if (may(other) && !waiting.has(other.load) && sameStrokes(first, other)) {
        gang.push({ ...other, beside: first.load })
        left.splice(at, 1)
      } else at += 1
    }
    ordered.push(...gang)
    for (const { leaves } of gang) if (leaves && leaves !== 'scrap') waiting.delete(leaves.id)
  }
  return ordered
}

/** Square cuts only; an end that slants is cleaned up by itself. */
export const mayLieBeside = ({ section, cuts, cleanUpLast }: Visit): boolean =>
  lieTogether.includes(section.kind) && cuts.length > 0 && !cleanUpLast && cuts.every(isPlain)

const isPlain = ({ kind, swing, tilt, roll, ramp, cleanUp }: Cut): boolean =>
  (kind === 'blank' || kind === 'square') &&
  swing === 0 &&
  tilt === 0 &&
  roll === 0 &&
  ramp === 0 &&
  cleanUp?.loss !== 0

/** Every stroke that cuts the one cuts the other as it must be cut. */
export function sameStrokes(one: Visit, two: Visit): boolean {
  const whole = ({ leaves }: Visit) => (typeof leaves === 'object' ? leaves.kind : leaves)
  return (
    one.saw.id === two.saw.id &&
    one.stopSide === two.stopSide &&
    one.hold === two.hold &&
    one.kerf === two.kerf &&
    sectionKey(one.section) === sectionKey(two.section) &&
    whole(one) === whole(two) &&
    one.cuts.length === two.cuts.length &&
    one.cuts.every((cut, at) => sameStroke(cut, two.cuts[at]!))
  )
}

const sameStroke = (one: Cut, two: Cut): boolean =>
  one.kind === two.kind &&
  one.keep.mark === two.keep.mark &&
  one.keep.key === two.keep.key &&
  Math.abs(one.stop.mm - two.stop.mm) <= sameLength &&
  Math.abs(one.exact - two.exact) <= sameLength &&
  one.cleanUp?.loss === two.cleanUp?.loss &&
  one.turns.join(' ') === two.turns.join(' ') &&
  one.rest === two.rest

/** One visit with those beside it. */
export const gangsOf = (visits: readonly Visit[]): readonly (readonly Visit[])[] => {
  const gangs: Visit[][] = []
  for (const visit of visits) {
    if (visit.beside === undefined) gangs.push([visit])
    else gangs.at(-1)!.push(visit)
  }
  return gangs
}
