import { axisX, origin } from '../geometry/pose.ts'
import { cross, dot, norm, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import type { Problem } from '../result.ts'
import { isRound } from '../section/section.ts'
import { sameLength, samePoint, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { Member } from './frame.ts'
import { butt } from './joint.ts'
import { endOn } from './landing.ts'
import { type End, edgesOf } from './member.ts'

// What no joint can do, found before it is made: each check gives the problem, or nothing. A build adds the field.

type Say = (mm: Mm) => string

const parallel = (one: Member, two: Member) => norm(cross(axisX(one.pose), axisX(two.pose))) < sameSlope

/** How far two axes that are not parallel pass each other. */
function axesApart(one: Member, two: Member): Mm {
  const across = unit(cross(axisX(one.pose), axisX(two.pose)))
  return Math.abs(dot(sub(origin(two.pose), origin(one.pose)), across))
}

/** Two members at a miter: axes that are parallel or pass each other, round to square, round to another diameter. */
export function miterProblem(one: Member, two: Member, say: Say): Problem | undefined {
  const both = `${one.name} and ${two.name}`
  if (parallel(one, two))
    return {
      code: 'miter-parallel',
      text: `${both} are parallel; a miter needs an angle between them. In one line they are one member.`,
    }
  const apart = axesApart(one, two)
  if (apart > sameLength)
    return {
      code: 'miter-apart',
      text: `The axes of ${both} pass each other ${say(apart)} apart; at a miter they must meet in a point.`,
    }
  if (isRound(one.section) !== isRound(two.section))
    return {
      code: 'miter-round-square',
      text: `${both} are not both round; their cut ends would not match. Let one run through and stop the other on it.`,
    }
  if (isRound(one.section) && Math.abs(one.section.width - two.section.width) > sameLength)
    return {
      code: 'miter-round-unequal',
      text:
        `${one.name} is ${say(one.section.width)} across and ${two.name} ${say(two.section.width)}; round tubes miter only ` +
        'at one diameter. Use a saddle.',
    }
  return undefined
}

/** A member that stops on the face of another: along it, on a round one, or beside it. */
export function buttProblem(stops: Member, end: End, runs: Member): Problem | undefined {
  if (isRound(runs.section))
    return {
      code: 'butt-on-round',
      text: isRound(stops.section)
        ? `${stops.name} stops on ${runs.name}, which is round; fit it with a saddle.`
        : `${stops.name} stops on ${runs.name}, which is round: a straight cut would touch it along a line only. Use round tube with a saddle.`,
    }
  if (parallel(stops, runs))
    return {
      code: 'butt-parallel',
      text: `${stops.name} runs along ${runs.name} and cannot stop on its face.`,
    }
  const { member } = butt('', stops, end, runs, 0)
  if (Math.min(...edgesOf(member).lengths) <= samePoint)
    return {
      code: 'butt-no-steel',
      text: `${stops.name} has no steel left on its short side where it stops on ${runs.name}; move them apart.`,
    }
  return endOn(member, end, runs)
    ? undefined
    : {
        code: 'butt-misses',
        text: `${stops.name} passes ${runs.name} and lands nowhere on its face; move it, or make ${runs.name} longer.`,
      }
}

/** An end that is cut along a plane: one that runs along it never meets it. */
export function flatProblem(of: Member, what = 'the floor', normal: Vec3 = [0, 0, 1]): Problem | undefined {
  return Math.abs(dot(axisX(of.pose), normal)) > sameSlope
    ? undefined
    : {
        code: 'flat-along',
        text: `${of.name} runs along ${what} and cannot be cut to stand on it; raise one of its ends.`,
      }
}
