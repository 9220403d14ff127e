import { describe, expect, test } from 'vitest'
import { cap } from '../../../src/core/frame/cap.ts'
import { flat, flatOn } from '../../../src/core/frame/flat.ts'
import { edgesOf, endCorners, endPlane, member } from '../../../src/core/frame/member.ts'
import { area } from '../../../src/core/geometry/polygon.ts'
import { axisZ, toWorld } from '../../../src/core/geometry/pose.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { cosDeg, tanDeg } from '../../../src/core/units.ts'

const tube40: Section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 }
const pipe: Section = { kind: 'round-tube', width: 48.3, height: 48.3, wall: 3.2, cornerRadius: 0 }

/** A leg from the top at z = 700 down to the floor, leaning by `lean` degrees toward +x. */
const leg = (lean: number, section = tube40) =>
  member('leg', 'Leg', section, [0, 0, 700], [700 * tanDeg(lean), 0, 0], [0, 1, 0])

describe('an end cut parallel to the floor', () => {
  test('leaning by 12° it is cut 12° from square, and all four corners stand on z = 0', () => {
    const cut = flat(leg(12), 'B', 0)
    const { p, q } = endPlane(cut.ends[1])
    expect(Math.hypot(p, q)).toBeCloseTo(tanDeg(12), 12)
    for (const [, , z] of endCorners(cut, 'B')) expect(z).toBeCloseTo(0, 9)
    expect(cut.mates).toEqual(['open', 'floor'])
  })

  test('a root gap of 2 mm leaves the end 2 mm short of what it meets, above and below', () => {
    for (const [, , z] of endCorners(flat(leg(12), 'B', 0, 'plate', 2), 'B')) expect(z).toBeCloseTo(2, 9)
    for (const [, , z] of endCorners(flat(leg(12), 'A', 700, 'plate', 2), 'A')) expect(z).toBeCloseTo(698, 9)
  })

  test('on a plate it stops on the face that looks at it: 706 under one from 706 to 712, 12 on one from 6 to 12', () => {
    const plate = (z: number, thickness: number) => ({
      id: 'plate',
      name: 'Plate',
      polygon: [],
      holes: [],
      thickness,
      pose: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, z, 1],
      on: [],
    })
    const above = flatOn('top', leg(8), 'A', plate(706, 6), 0)
    for (const [, , z] of endCorners(above.member, 'A')) expect(z).toBeCloseTo(706, 9)
    const below = flatOn('foot', leg(8), 'B', plate(6, 6), 1.5)
    for (const [, , z] of endCorners(below.member, 'B')) expect(z).toBeCloseTo(13.5, 9)
    expect(below.joint.at[2]).toBeCloseTo(12, 9)
    expect(below.joint).toMatchObject({ kind: 'flat', members: ['leg', 'plate'], ends: ['B', 'side'] })
  })
})

describe('a cap on an end', () => {
  test('on a square end of 40 tube it is 40 × 40 and takes its 5 mm off the length', () => {
    const { member: capped, plate, joint } = cap('cap', leg(0), 'B', 5)
    expect(edgesOf(capped).lengths).toEqual([695, 695, 695, 695])
    expect(Math.abs(area(plate.polygon))).toBeCloseTo(1600, 9)
    expect(capped.mates).toEqual(['open', 'cap'])
    expect(joint).toMatchObject({ kind: 'cap', members: ['leg', 'cap'], ends: ['B', 'side'] })
  })

  test('under a leg that leans 12° the 40 tube needs 40.89 (design), and 6 mm take 6/cos 12° = 6.134 off the axis', () => {
    const whole = flat(leg(12), 'B', 0)
    const { member: capped, plate } = cap('cap', whole, 'B', 6)
    const spans = [0, 1].map((axis) => {
      const along = plate.polygon.map((point) => point[axis]!)
      return Math.max(...along) - Math.min(...along)
    })
    expect(spans.sort()[1]).toBeCloseTo(40.89, 2)
    expect(spans[0]).toBeCloseTo(40, 9)
    const lost = edgesOf(whole).lengths[0] - edgesOf(capped).lengths[0]
    expect(lost).toBeCloseTo(6 / cosDeg(12), 9)
    expect(lost).toBeCloseTo(6.134, 3)
  })

  test('lies between floor and steel: outer face on z = 0, the leg’s corners on its upper one, also splayed both ways', () => {
    const splayed = member('leg', 'Leg', tube40, [0, 0, 700], [140, 90, 0], [0, 1, 0.2])
    const { member: capped, plate } = cap('cap', flat(splayed, 'B', 0), 'B', 6)
    const corners = plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, 6]))
    for (const corner of endCorners(capped, 'B')) {
      const nearest = Math.min(...corners.map((other) => distance(other, corner)))
      expect(nearest).toBeLessThan(1e-9)
    }
    for (const [x, y] of plate.polygon) expect(toWorld(plate.pose, [x, y, 0])[2]).toBeCloseTo(0, 9)
    expect(axisZ(plate.pose)[2]).toBeCloseTo(1, 12)
  })

  test('on a round tube of 48.3 it is round; under a lean of 20° an oval, 48.3 by 51.40', () => {
    const round = cap('cap', leg(0, pipe), 'B', 4).plate
    expect(Math.abs(area(round.polygon)) / ((Math.PI * 48.3 ** 2) / 4)).toBeCloseTo(1, 2)
    const oval = cap('cap', flat(leg(20, pipe), 'B', 0), 'B', 4).plate
    const xs = oval.polygon.map(([x]) => x)
    const ys = oval.polygon.map(([, y]) => y)
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(48.3 / cosDeg(20), 6)
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(48.3, 2)
  })
})

const distance = (a: Vec3, b: Vec3) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])
