import { together } from '../fitup/named.ts'
import type { Member } from '../frame/frame.ts'
import { faceNormal } from '../frame/member.ts'
import { axisX } from '../geometry/pose.ts'
import type { Landing, Plan } from '../plan-shapes.ts'

/**
 * A face in words that can be found on the steel as it stands in the frame: upper face and underside; of an upright
 * member the side that it turns to, front being where side 1 is; else left and right, seen from end A.
 */
export function faceWords(of: Member, face: Landing['face']): string {
  const [x, y, z] = faceNormal(of.pose, face)
  if (Math.abs(z) > Math.SQRT1_2) return z > 0 ? 'upper face' : 'underside'
  if (Math.abs(axisX(of.pose)[2]) > Math.SQRT1_2) {
    if (Math.abs(y) >= Math.abs(x)) return y < 0 ? 'front side' : 'back side'
    return x < 0 ? 'left side' : 'right side'
  }
  return face === '+y' || face === '+z' ? 'left side, seen from end A' : 'right side, seen from end A'
}

/** Faces in the order in which a right-hand turn about the axis meets them, from +y. */
const inTurn: readonly Landing['face'][] = ['+y', '+z', '-y', '-z']

/** On a round member, which has no faces: the nearest side, and how many degrees beside it toward the next one. */
function sideWords(of: Member, { face, around }: Landing): string {
  const at = inTurn.indexOf(face)
  const off = around === undefined ? 0 : ((around - at * 90 + 540) % 360) - 180
  const degrees = Math.round(Math.abs(off) * 10) / 10
  if (degrees === 0) return faceWords(of, face)
  const next = inTurn[(at + (off > 0 ? 1 : 3)) % 4]!
  return `${faceWords(of, face)}, ${degrees}° round toward ${faceWords(of, next)}`
}

export interface LandingLine {
  readonly key: string
  /** What is marked, with its mark: `A, Upright × 4`, `D, Top side 3`. */
  readonly on: string
  /** All that lands so on each of them: `C, Spider bar 2 and 3`. */
  readonly by: string
  readonly landing: Landing
  /** Its face in words. */
  readonly face: string
}

/** Landings that read the same on members of one name are one line, with all that land so. */
export function landingLines(plan: Plan): readonly LandingLine[] {
  const marks = new Map(plan.parts.flatMap(({ mark, members }) => members.map((id) => [id, mark] as const)))
  const names = new Map([...plan.frame.plates, ...plan.frame.members].map(({ id, name }) => [id, name]))
  const members = new Map(plan.frame.members.map((member) => [member.id, member]))
  const marked = (id: string, name: string) => [...(marks.has(id) ? [marks.get(id)!] : []), name].join(', ')
  const nameOf = (id: string) => names.get(id) ?? id
  const alike = new Map<string, { readonly face: string; readonly landings: readonly Landing[] }>()
  for (const landing of plan.landings) {
    const receiver = members.get(landing.on)
    const face = receiver ? sideWords(receiver, landing) : landing.face
    const { near, far } = landing.printed
    const key = [
      marked(landing.on, nameOf(landing.on)),
      marks.get(landing.by) ?? landing.by,
      stemOf(nameOf(landing.by)),
      face,
      landing.from,
      near.text,
      far.text,
    ].join('|')
    alike.set(key, { face, landings: [...(alike.get(key)?.landings ?? []), landing] })
  }
  return [...alike].map(([key, { face, landings }]) => {
    const [landing] = landings as readonly [Landing, ...Landing[]]
    const receivers = new Set(landings.map(({ on }) => on)).size
    const own = [...new Set(landings.map(({ by }) => nameOf(by)))]
    // Without numbers in their names, how many land so on each.
    const each = own.length > 1 ? 1 : landings.length / receivers
    return {
      key,
      on: marked(landing.on, times(nameOf(landing.on), receivers)),
      by: marked(landing.by, times(together(own), each)),
      landing,
      face,
    }
  })
}

const stemOf = (name: string): string => name.replace(/\s*\d+$/, '')

const times = (name: string, count: number): string => (count > 1 ? `${name} × ${count}` : name)
