// The checks themselves, tried on frames with one fault each: a check that cannot fail proves nothing.
import { describe, expect, test } from 'vitest'
import type { EndCut, Frame, Member } from '../../src/core/frame/frame.ts'
import { platesOf } from '../../src/core/parts/plates.ts'
import { framed, metric, onBars, tube } from '../core/builds/framed.ts'
import {
  bodiesOf,
  edgeFaults,
  footFaults,
  massFaults,
  outlineFaults,
  overlapFaults,
  sizeFaults,
} from './frame-checks.ts'
import { scope, surfaceOf } from './kernel.ts'
import { facetsOf, liesOn } from './near.ts'
import { unlike } from './same.ts'
import { unlikeRound } from './same-round.ts'
import { ownSolid } from './solid.ts'

// Post, bars and arms of one width, so that every end lies wholly on what it meets.
const same = tube(40, 3)
const pedestal = framed(
  'pedestal',
  { ...onBars, top: 'plate', topEdge: 'flush', barSection: same, postSection: same, armSection: same },
  metric,
)
const { frame, parts } = pedestal
const plates = platesOf(frame, metric)

/** The frame with one member changed. */
const withMember = (id: string, change: (member: Member) => Member): Frame => ({
  ...frame,
  members: frame.members.map((member) => (member.id === id ? change(member) : member)),
})

/** An end moved along the axis of its member, mm. */
const endMoved = (member: Member, end: 0 | 1, by: number): Member => ({
  ...member,
  ends: member.ends.map((cut, at) =>
    at === end ? { ...cut, point: [cut.point[0] + by, cut.point[1], cut.point[2]] } : cut,
  ) as unknown as Member['ends'],
})

const checked = <T>(of: Frame, check: (of: Frame, bodies: ReturnType<typeof bodiesOf>) => T): T =>
  scope(() => check(of, bodiesOf(of)))

describe('a pedestal as it is drawn', () => {
  test('has no fault that any check finds', () => {
    checked(frame, (of, bodies) => {
      expect(overlapFaults(bodies)).toEqual([])
      expect(outlineFaults(of, bodies, [])).toEqual([])
      expect(edgeFaults(of, parts)).toEqual([])
      expect(sizeFaults(of, bodies)).toEqual([])
      expect(footFaults(of, bodies)).toEqual([])
      expect(massFaults(of, parts, plates)).toEqual([])
    })
  })
})

describe('a fault of 0.1 mm is found', () => {
  test('where a post reaches 0.1 mm into the bar above it', () => {
    const faults = checked(
      withMember('base/post', (post) => endMoved(post, 1, 0.1)),
      (_, bodies) => overlapFaults(bodies),
    )
    expect(faults).toHaveLength(1)
    expect(faults[0]).toContain('base/bar-1 and base/post have 160.000 mm³ in common')
  })

  test('where a post stops 0.1 mm short of the bar above it', () => {
    const faults = checked(
      withMember('base/post', (post) => endMoved(post, 1, -0.1)),
      (of, bodies) => outlineFaults(of, bodies, []),
    )
    expect(faults.join()).toContain('end B of base/post: 0.0 % of its outline')
  })

  test('where one side of the ring is cut 0.1 mm short at one end: neither end of that corner lies on its mate', () => {
    const faults = checked(
      withMember('top/side-2', (side) => endMoved(side, 0, 0.1)),
      (of, bodies) => outlineFaults(of, bodies, []),
    )
    expect(faults.map((fault) => fault.slice(0, 19))).toEqual(['end B of top/side-1', 'end A of top/side-2'])
  })

  test('where a miter is 0.1° off: its outline leaves the mate', () => {
    const turn = (0.1 * Math.PI) / 180
    const turned = ({ point, normal: [x, y, z] }: EndCut): EndCut => ({
      point,
      normal: [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn), z],
    })
    const faults = checked(
      withMember('top/side-2', (side) => ({ ...side, ends: [turned(side.ends[0]), side.ends[1]] })),
      (of, bodies) => outlineFaults(of, bodies, []),
    )
    expect(faults.join()).toContain('end A of top/side-2')
  })

  test('where a part is 0.1 mm longer than its edges say', () => {
    const faults = checked(
      withMember('top/side-2', (side) => endMoved(side, 1, 0.1)),
      (of) => edgeFaults(of, parts),
    )
    expect(faults.some((fault) => fault.startsWith('top/side-2: edges'))).toBe(true)
    expect(faults.some((fault) => fault.startsWith('top/side-2: long point'))).toBe(true)
  })

  test('where the stated height is 0.1 mm more than the steel', () => {
    const taller: Frame = { ...frame, size: [frame.size[0], frame.size[1], frame.size[2] + 0.1] }
    expect(checked(taller, sizeFaults)).toHaveLength(1)
  })

  test('where steel reaches 0.1 mm below the floor', () => {
    const low: Frame = {
      ...frame,
      floor: frame.floor + 100,
      size: [frame.size[0], frame.size[1], frame.size[2] - 100],
    }
    expect(checked(low, sizeFaults).join()).toContain('below the floor')
  })

  test('where one cap stands 0.1 mm higher than the others', () => {
    const plate = frame.plates.find(({ id }) => id === 'base/cap-1')!
    const pose = plate.pose.map((value, at) => (at === 14 ? value + 0.1 : value))
    const uneven: Frame = {
      ...frame,
      plates: frame.plates.map((each) => (each === plate ? { ...plate, pose } : each)),
    }
    expect(checked(uneven, footFaults)).toEqual([
      'foot base/cap-1 stands 0.100000 off the plane of the lowest steel',
    ])
  })

  test('where the wall is 0.1 mm thicker than the weight says', () => {
    const side = frame.members.find(({ id }) => id === 'top/side-1')!
    const thick = {
      ...frame,
      members: frame.members.map((each) => ({
        ...each,
        section: { ...each.section, wall: side.section.wall + 0.1 },
      })),
    }
    expect(scope(() => massFaults(thick, parts, plates)).length).toBeGreaterThan(5)
  })

  test('where a hole was forgotten', () => {
    const plugged = { ...frame, plates: frame.plates.map((plate) => ({ ...plate, holes: [] })) }
    const holes = frame.plates.filter((plate) => plate.holes.length > 0)
    expect(holes.length).toBeGreaterThan(0)
    expect(scope(() => massFaults(plugged, parts, plates))).toHaveLength(holes.length)
  })
})

/** One piece with its ends at right angles to each other, which has a left and a right. */
const crossed = (sign: 1 | -1, longer = 0): Member => {
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)]
  return {
    ...frame.members[0]!,
    ends: [
      { point: [0, 0, 0], normal: [-c, s, 0] },
      { point: [400 + longer, 0, 0], normal: [c, 0, sign * s] },
    ],
  }
}

describe('two pieces are one only when they can be turned into each other', () => {
  const steel = (member: Member) => ownSolid(member, 'steel', 2)

  test('the same piece, turned end for end and rolled a quarter, differs by less than 1e-9 of its volume', () => {
    scope(() => {
      const turned = steel(crossed(1)).rotate([90, 0, 0]).rotate([0, 180, 0])
      expect(unlike(turned, steel(crossed(1)))).toMatchObject({ mirror: false })
      expect(unlike(turned, steel(crossed(1)), 0).share).toBeLessThan(1e-9)
      turned.delete()
    })
  })

  test('the other hand is refused as the mirror image', () => {
    scope(() => {
      const { share, mirror } = unlike(steel(crossed(-1)), steel(crossed(1)))
      expect(share).toBeGreaterThan(0.01)
      expect(mirror).toBe(true)
    })
  })

  test('400.1 for 400 differs by 0.1/400 of its volume, and 400.001 still by more than 1e-6', () => {
    scope(() => {
      const { share, mirror } = unlike(steel(crossed(1, 0.1)), steel(crossed(1)))
      expect(share).toBeCloseTo(0.1 / 400, 6)
      expect(mirror).toBe(false)
      expect(unlike(steel(crossed(1, 0.001)), steel(crossed(1))).share).toBeGreaterThan(1e-6)
    })
  })

  test('round steel: any roll is the same piece, the other hand and 400.1 for 400 are not', () => {
    const round = (sign: 1 | -1, longer = 0) =>
      ownSolid(
        {
          ...crossed(sign, longer),
          section: { kind: 'round-tube', width: 40, height: 40, wall: 2, cornerRadius: 20 },
        },
        'box',
        16,
      )
    scope(() => {
      const rolled = round(1).rotate([37, 0, 0]).rotate([0, 0, 180])
      expect(unlikeRound(rolled, round(1), 20).share).toBeLessThan(1e-9)
      rolled.delete()
      const other = unlikeRound(round(-1), round(1), 20)
      expect(other.share).toBeGreaterThan(0.01)
      expect(other.mirror).toBe(true)
      expect(unlikeRound(round(1, 0.1), round(1), 20).share).toBeCloseTo(0.1 / 400, 6)
    })
  })
})

test('a point lies on a face at 0.000005 mm from it and within it, not at 0.0001 mm nor past its edge', () => {
  scope(() => {
    const side = frame.members.find(({ id }) => id === 'top/side-1')!
    const facets = facetsOf(surfaceOf(ownSolid(side, 'box')))
    const half = side.section.height / 2
    const x = side.ends[1].point[0] / 2
    expect(liesOn([x, 1, half + 5e-6], facets, 0, 1e-5)).toBe(true)
    expect(liesOn([x, 1, half + 1e-4], facets, 0, 1e-5)).toBe(false)
    expect(liesOn([x, side.section.width / 2 + 0.1, half], facets, 0, 1e-5)).toBe(false)
    // A root gap of 1.6 mm stands open in front of it.
    expect(liesOn([x, 1, half + 1.6], facets, 1.6, 1e-5)).toBe(true)
  })
})
