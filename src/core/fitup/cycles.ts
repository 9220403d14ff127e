import type { Frame, Joint, Member } from '../frame/frame.ts'
import { samePoint } from '../tolerance.ts'
import { type Plane, runsIn } from './plane.ts'

/** A closed walk: member k runs from joint k to joint k + 1. */
export interface Cycle {
  readonly joints: readonly Joint[]
  readonly members: readonly Member[]
}

/** A way from one member that runs in the plane to another: straight, or through a member that does not. */
interface Step {
  readonly to: Member
  readonly joints: readonly Joint[]
  readonly through?: Member
}

const inPlane = ({ normal, offset }: Plane, { at }: Joint, reach: number): boolean =>
  Math.abs(normal[0] * at[0] + normal[1] * at[1] + normal[2] * at[2] - offset) < reach + samePoint

/** Steps between members that run in the plane, and past those that cross it. */
function stepsIn(
  frame: Frame,
  meetings: ReadonlyMap<string, readonly Joint[]>,
  plane: Plane,
): ReadonlyMap<string, readonly Step[]> {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const flat = new Set(frame.members.filter((each) => runsIn(plane, each)).map(({ id }) => id))
  const other = (joint: Joint, id: string) => members.get(joint.members.find((one) => one !== id) ?? '')
  const found = new Map<string, Step[]>()
  for (const id of flat) {
    const steps: Step[] = []
    for (const joint of meetings.get(id) ?? []) {
      const next = other(joint, id)
      if (!next) continue
      if (flat.has(next.id)) {
        steps.push({ to: next, joints: [joint] })
        continue
      }
      const reach = Math.max(members.get(id)!.section.width, members.get(id)!.section.height) / 2
      for (const beyond of meetings.get(next.id) ?? []) {
        const to = other(beyond, next.id)
        if (beyond === joint || !to || !flat.has(to.id) || to.id === id) continue
        if (inPlane(plane, joint, reach) && inPlane(plane, beyond, reach))
          steps.push({ to, joints: [joint, beyond], through: next })
      }
    }
    found.set(id, steps)
  }
  return found
}

/** The fewest steps from one member to another without the joints of `not`; undefined where there is no way. */
function shortest(
  steps: ReadonlyMap<string, readonly Step[]>,
  from: string,
  to: string,
  not: Step,
): readonly Step[] | undefined {
  const came = new Map<string, { readonly from: string; readonly step: Step }>()
  const queue = [from]
  for (const at of queue) {
    if (at === to) break
    for (const step of steps.get(at) ?? []) {
      const barred =
        step.joints.some((joint) => not.joints.includes(joint)) ||
        (not.through !== undefined && step.through === not.through)
      if (barred || step.to.id === from || came.has(step.to.id)) continue
      came.set(step.to.id, { from: at, step })
      queue.push(step.to.id)
    }
  }
  const way: Step[] = []
  for (let at = to; at !== from; ) {
    const last = came.get(at)
    if (!last) return undefined
    way.unshift(last.step)
    at = last.from
  }
  return way
}

/** The smallest closed walk through every joint of the plane; one for each set of members. */
export function cyclesIn(
  frame: Frame,
  meetings: ReadonlyMap<string, readonly Joint[]>,
  plane: Plane,
): readonly Cycle[] {
  const steps = stepsIn(frame, meetings, plane)
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const found = new Map<string, Cycle>()
  for (const [id, own] of steps)
    for (const step of own) {
      const rest = shortest(steps, step.to.id, id, step)
      if (!rest || rest.length < 2) continue
      const walk = [step, ...rest]
      // From the member at `id`: over the joints of each step, through what stands between, to the next.
      const joints = walk.flatMap((each) => each.joints)
      const round = walk.flatMap((each) => [...(each.through ? [each.through] : []), each.to])
      // The last one walked to is the first one: member k must run from joint k to joint k + 1.
      const cycle: Cycle = { joints, members: round.map((each) => members.get(each.id)!) }
      const name = round
        .map((each) => each.id)
        .sort()
        .join(' ')
      if (new Set(round).size === round.length && !found.has(name)) found.set(name, cycle)
    }
  return [...found.values()]
}
