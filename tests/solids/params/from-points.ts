import type { Params, RowGiven, SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'

const tenths = (mm: number) => Math.round(mm * 10) / 10
const square = (width: number): SectionGiven => ({ kind: 'square-tube', width, wall: 2 })

/** Rows that grow together. */
class Drawn {
  readonly points: RowGiven[] = []
  readonly members: RowGiven[] = []
  readonly joints: RowGiven[] = []

  point(name: string, x: number, y: number, z: number): string {
    this.points.push({ name, x, y, z })
    return name
  }

  member(name: string, from: string, to: string, more: RowGiven = {}): string {
    this.members.push({ name, from, to, ...more })
    return name
  }

  joint(at: string, how: string, runs?: string): void {
    this.joints.push({ at, how, ...(runs === undefined ? {} : { runs }) })
  }

  params(section: SectionGiven): Params {
    return { section, points: this.points, members: this.members, joints: this.joints }
  }
}

/** A box: any of the three runs through at each corner; rails and braces that stop along the members. */
function box(roll: Dice): Params {
  const width = roll.pick([25, 30, 40])
  const [x, y, z] = [0, 1, 2].map(() => tenths(roll.between(450, 1100))) as [number, number, number]
  const drawn = new Drawn()
  for (const i of [0, 1])
    for (const j of [0, 1]) for (const k of [0, 1]) drawn.point(`p${i}${j}${k}`, i * x, j * y, k * z)
  for (const j of [0, 1])
    for (const k of [0, 1]) {
      drawn.member(`x${j}${k}`, `p0${j}${k}`, `p1${j}${k}`)
      drawn.member(`y${j}${k}`, `p${j}0${k}`, `p${j}1${k}`)
      drawn.member(`z${j}${k}`, `p${j}${k}0`, `p${j}${k}1`)
    }
  for (const i of [0, 1])
    for (const j of [0, 1])
      for (const k of [0, 1])
        drawn.joint(`p${i}${j}${k}`, 'butt', roll.pick([`x${j}${k}`, `y${i}${k}`, `z${i}${j}`]))
  if (roll() < 0.6) {
    // A rail between the front legs, from either side.
    const high = tenths(z * roll.between(0.4, 0.6))
    drawn.member('rail', drawn.point('r0', 0, 0, high), drawn.point('r1', x, 0, high))
  }
  if (roll() < 0.7) {
    // A brace at the back, from a leg to the bottom, thinner than what it stops on, well clear of the corner.
    const up = tenths(z * roll.between(0.35, 0.6))
    const along = tenths(x * roll.between(0.35, 0.6))
    const section = square(roll.pick([20, width]))
    const from = drawn.point('b0', 0, y, up)
    drawn.member('brace', from, drawn.point('b1', along, y, 0), { section })
  }
  return drawn.params(square(width))
}

/** Trestles, one or two, with legs that lean, turned about the upright; the tube deeper than wide or not. */
function trestle(roll: Dice): Params {
  const width = roll.pick([30, 40])
  const section: SectionGiven = {
    kind: 'rect-tube',
    width,
    height: roll.pick([width + 10, 2 * width]),
    wall: 2,
  }
  const turn = (roll.whole(0, 6) * Math.PI) / 7
  const drawn = new Drawn()
  const place = (name: string, along: number, z: number) =>
    drawn.point(name, along * Math.cos(turn), along * Math.sin(turn), z)
  const high = tenths(roll.between(500, 900))
  const lean = roll.between(-0.15, 0.3)
  const long = tenths(roll.between(700, 1200))
  const at = (z: number) => lean * z
  const rail = high * roll.between(0.25, 0.5)
  drawn.member('left leg', place('a', 0, 0), place('c', at(high), high))
  drawn.member('right leg', place('b', long, 0), place('d', long - at(high), high))
  drawn.member('top', 'c', 'd', { section: { ...section, height: roll.pick([width + 10, width + 20]) } })
  drawn.member('rail', place('e', at(rail), rail), place('f', long - at(rail), rail), {
    section: square(roll.pick([20, width])),
  })
  drawn.joint('a', 'flat')
  drawn.joint('b', 'flat')
  if (roll() < 0.3) drawn.joint('c', 'butt', roll.pick(['left leg', 'top']))
  return drawn.params(section)
}

/** A level ring of unequal sides with legs under the middle of its sides, leaning any way and rolled. */
function stand(roll: Dice): Params {
  const drawn = new Drawn()
  const sides = roll.whole(3, 6)
  const high = tenths(roll.between(400, 800))
  const radius = roll.between(400, 700)
  const corners = Array.from({ length: sides }, (_, k) => {
    const angle = ((2 * Math.PI) / sides) * (k + roll.between(-0.12, 0.12))
    const away = radius * roll.between(0.9, 1.1)
    return [tenths(away * Math.cos(angle)), tenths(away * Math.sin(angle))] as const
  })
  for (const [k, [x, y]] of corners.entries()) drawn.point(`c${k}`, x, y, high)
  for (const k of corners.keys()) drawn.member(`side ${k}`, `c${k}`, `c${(k + 1) % sides}`)
  const section = square(20)
  for (const [k, [x, y]] of corners.entries()) {
    const next = corners[(k + 1) % sides]!
    const middle = [(x + next[0]) / 2, (y + next[1]) / 2] as const
    const lean = () => tenths(roll.between(-0.12, 0.12) * high)
    drawn.member(
      `leg ${k}`,
      drawn.point(`m${k}`, middle[0], middle[1], high),
      drawn.point(`f${k}`, middle[0] + lean(), middle[1] + lean(), 0),
      { section, roll: roll.pick([0, 0, 30, 45]) },
    )
    drawn.joint(`f${k}`, 'flat')
  }
  return drawn.params({ kind: 'rect-tube', width: 50, height: roll.pick([30, 40]), wall: 2 })
}

/** Round tube: a ring that is mitered, with posts in saddles. */
function round(roll: Dice): Params {
  const drawn = new Drawn()
  const [x, y, high] = [0, 1, 2].map(() => tenths(roll.between(400, 900))) as [number, number, number]
  const corners = [
    [0, 0],
    [x, 0],
    [x + roll.pick([0, 80]), y],
    [0, y],
  ] as const
  for (const [k, at] of corners.entries()) drawn.point(`c${k}`, at[0], at[1], high)
  for (const k of corners.keys())
    drawn.member(`side ${k}`, `c${k}`, `c${(k + 1) % 4}`, { roll: roll.whole(0, 89) })
  const section: SectionGiven = { kind: 'round-tube', width: roll.pick([26.9, 42.4]), wall: 2.6 }
  for (const k of [0, 2]) {
    const [from, to] = [corners[k]!, corners[k + 1]!]
    const part = roll.between(0.35, 0.65)
    const middle = [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])] as const
    const lean = () => tenths(roll.between(-0.2, 0.2) * high)
    drawn.member(
      `post ${k}`,
      drawn.point(`m${k}`, middle[0], middle[1], high),
      drawn.point(`f${k}`, middle[0] + lean(), middle[1] + lean(), 0),
      { section },
    )
    drawn.joint(`f${k}`, 'flat')
  }
  return drawn.params({ kind: 'round-tube', width: 42.4, wall: 2.6 })
}

/** Random frames from points, drawn so that no member runs into another and every end lands wholly. */
export const randomParams = (roll: Dice): Params => roll.pick([box, trestle, stand, round])(roll)
