import type { Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { buttProblem } from '../frame/joint-problem.ts'
import { member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm, Rad } from '../units.ts'
import type { BuildContext, Values } from './build.ts'

// A pair of legs in a plane across the table, under its top bar. It is seen from the front; a second pair stands behind it.

/** How the axes of a pair run: from the floor ends to the upper ends, in the pair's own plane. */
export interface Lean {
  /** From upright. */
  readonly angle: Rad
  /** Distance of each axis from the middle at the lower and the upper level; the first leg starts on the left. */
  readonly low: Mm
  readonly high: Mm
}

/**
 * The lean of legs that measure `feet` outside to outside at the lower level and `upper` at the upper one, `rise` higher. A
 * leg cut level is wide/cos(lean) across there. Crossing: rise · sin = (feet + upper)/2 · cos − wide.
 */
export function leanOf(crosses: boolean, feet: Mm, upper: Mm, rise: Mm, wide: Mm): Lean {
  const across = (feet + upper) / 2
  const angle = crosses
    ? Math.acos(Math.min(1, wide / Math.hypot(across, rise))) - Math.atan2(rise, across)
    : Math.atan2((feet - upper) / 2, rise)
  const half = wide / 2 / Math.cos(angle)
  return { angle, low: feet / 2 - half, high: crosses ? half - upper / 2 : upper / 2 - half }
}

export interface Pair {
  /** Standing legs: their end A is at the floor. */
  readonly standing: readonly Member[]
  /** The upper half of a leg that was cut in two. */
  readonly rest: readonly Member[]
  readonly bar: Member
  readonly joints: readonly Joint[]
}

/** What a pair is built between. */
export interface Levels {
  /** Lower ends of the legs as they are laid, and the underside of the bar. */
  readonly low: Mm
  readonly under: Mm
}

/** The section of a leg as it lies: its greater side is seen from the side of the pair. */
export const legOf = (given: Section): Section => {
  const [big, small] = [Math.max(given.width, given.height), Math.min(given.width, given.height)]
  return { ...given, width: small, height: big }
}

/** Pair `number` with its plane at `y`, seen from the front, or why it cannot be. */
export function pairOf(
  values: Values,
  { gap, say }: BuildContext,
  number: number,
  y: Mm,
  lean: Lean,
  { low, under }: Levels,
): Result<Pair> {
  const section = legOf(values.legSection as Section)
  const crosses = values.style === 'X legs'
  const barSection = values.barSection as Section
  const long = values.barLength as Mm
  const z = under + barSection.height / 2
  const path = `pair-${number}`
  const at = (x: Mm, height: Mm): Vec3 => [x, y, height]
  const bar = member(`${path}/bar`, 'Top bar', barSection, at(-long / 2, z), at(long / 2, z), [0, 0, 1])
  const laid = (id: string, name: string, sign: 1 | -1): Member =>
    member(
      `${path}/${id}`,
      name,
      section,
      at(-sign * lean.low, low),
      at(-sign * lean.high, under),
      [1, 0, 0],
      gap,
    )
  const joints: Joint[] = []
  const stop = (of: Member, end: 'A' | 'B', on: Member, name: string): Member | Problem => {
    const problem = buttProblem(of, end, on)
    if (problem) return problem
    const made = butt(`${of.id}/${name}`, of, end, on, gap)
    joints.push(made.joint)
    return made.member
  }
  const refused = ({ code, text }: Problem) => bad(code, text, 'build.params.upper')
  const first = stop(laid('leg-1', crosses ? 'Leg, through' : 'Leg', 1), 'B', bar, 'bar')
  if ('code' in first) return refused(first)
  const second = laid('leg-2', crosses ? 'Half leg, lower' : 'Leg', -1)
  if (!crosses) {
    const leg = stop(second, 'B', bar, 'bar')
    if ('code' in leg) return refused(leg)
    const apart = 2 * (lean.high - section.height / 2 / Math.cos(lean.angle))
    if (apart < 0)
      return bad(
        'legs-collide',
        `The legs run into each other at the top: ${say(values.upper as Mm)} outside to outside is too little for two of them.`,
        'build.params.upper',
      )
    return good({ standing: [first, leg], rest: [], bar, joints })
  }
  const lower = stop(second, 'B', first, 'crossing')
  if ('code' in lower) return refused(lower)
  const half = { ...second, id: `${path}/leg-3`, name: 'Half leg, upper' }
  const begun = stop(half, 'A', first, 'crossing')
  if ('code' in begun) return refused(begun)
  const upper = stop(begun, 'B', bar, 'bar')
  if ('code' in upper) return refused(upper)
  return good({ standing: [first, lower], rest: [upper], bar, joints })
}
