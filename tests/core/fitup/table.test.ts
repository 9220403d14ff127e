import { describe, expect, test } from 'vitest'
import reference from '../../../shared/reference/tolerances.json'
import { blocksUnder, loadsOf, lyingsOf, usualLying } from '../../../src/core/fitup/blocks.ts'
import {
  centersOf,
  type Outermost,
  plateCentersOf,
  standsOf,
  strayOf,
} from '../../../src/core/fitup/centering.ts'
import { angleAllowed, flatAllowed, lengthAllowed } from '../../../src/core/fitup/general.ts'
import { loopsOf } from '../../../src/core/fitup/loops.ts'
import { together } from '../../../src/core/fitup/named.ts'
import { layoutOf, needPlate } from '../../../src/core/fitup/table.ts'
import { angleMay, flatMay, lengthMay, sayOff } from '../../../src/core/fitup/tapes.ts'
import { blockLines, standLines } from '../../../src/core/fitup/words.ts'
import { dice } from '../../prove/seed.ts'
import { type Framed, framed, metric, onBars, tube } from '../builds/framed.ts'

describe('ISO 13920', () => {
  test('equals the reference table over all its ranges', () => {
    const { ranges, ...rows } = reference.ISO13920_linear_mm
    for (const [at, range] of ranges.entries()) {
      const [over, upTo] = range.split('-').map(Number) as [number, number]
      for (const name of ['A', 'B', 'C', 'D'] as const)
        for (const nominal of [over + 0.01, upTo]) expect(lengthAllowed(name, nominal)).toBe(rows[name][at])
    }
    const straight = reference.ISO13920_straight_flat
    for (const [at, range] of straight.ranges.entries()) {
      const [over, upTo] = range.split('-').map(Number) as [number, number]
      for (const name of ['E', 'F'] as const)
        for (const nominal of [over + 0.01, upTo]) expect(flatAllowed(name, nominal)).toBe(straight[name][at])
    }
  })

  test('up to 30 mm every class allows 1 mm, up to 2 mm none says anything', () => {
    for (const name of ['A', 'B', 'C', 'D'] as const) {
      expect(lengthAllowed(name, 30)).toBe(1)
      expect(lengthAllowed(name, 2)).toBeUndefined()
    }
    expect(flatAllowed('E', 30)).toBeUndefined()
  })

  test('angles by the shorter leg: class A 20′, 15′, 10′; class D 1½°, 1¼°, 1°', () => {
    expect([400, 1000, 1001].map((leg) => angleAllowed('A', leg) * 60)).toEqual([20, 15, 10])
    expect([400, 401, 1001].map((leg) => angleAllowed('D', leg))).toEqual([1.5, 1.25, 1])
  })

  test('a diagonal of 1081.67 that is 3 mm too long is just within A, and beyond the shop’s own half millimeter', () => {
    const said = (general: object) =>
      sayOff(1084.67, 1081.67, lengthMay({ ...metric, ...general }, 1081.67), metric.reading)
    expect(said({ general: { linear: 'B' } })).toEqual({
      within: true,
      text: '3.0 mm too long, within class B',
    })
    expect(said({ general: { linear: 'A' } }).within).toBe(true)
    expect(
      sayOff(1084.68, 1081.67, lengthMay({ ...metric, general: { linear: 'A' } }, 1081.67), metric.reading)
        .within,
    ).toBe(false)
    expect(said({})).toEqual({
      within: false,
      text: '3.0 mm too long; the shop’s tolerance allows 0.5 mm',
    })
    expect(angleMay(metric, 600)).toBeUndefined()
    expect(flatMay({ ...metric, general: { flat: 'H' } }, 900)).toEqual({
      most: 9,
      by: 'class H (from memory)',
    })
  })
})

const loadOf = (made: Framed, id: string) => loadsOf(made.frame).find((load) => load.id === id)!
const under = (made: Framed, id: string, lying: Parameters<ReturnType<typeof lyingsOf>['get']>[0]) =>
  blocksUnder(made.frame, loadOf(made, id), lyingsOf(made.frame, loadOf(made, id)).get(lying)!)

describe('what goes under', () => {
  test('bars 25 high, flush with the top of a frame of 40: nothing top side down, 15 mm as it stands', () => {
    const made = framed('rect-frame', {}, metric)
    expect(under(made, 'frame', 'top side down')).toEqual([])
    expect(under(made, 'frame', 'as it stands').map(({ height }) => height)).toEqual([15, 15])
    expect(usualLying(made.frame, loadOf(made, 'frame'))).toBe('top side down')
  })

  test('pedestal as it stands: arms near the post and the post itself 75 mm up, feet and elbows carried', () => {
    const made = framed('pedestal', {}, metric)
    const low = under(made, 'base', 'as it stands').filter(({ height }) => height < 150)
    expect(low.map(({ member, end }) => `${member} ${end}`)).toEqual([
      'base/post A',
      ...[1, 2, 3, 4].map((at) => `base/arm-${at} A`),
    ])
    // Floor to the underside of the arms, less the 15 mm of the leveling feet, which are not in yet.
    const arm = made.frame.members.find(({ id }) => id === 'base/arm-1')!
    for (const { height } of low) expect(height).toBeCloseTo(arm.pose[14]! - arm.section.height / 2 - 15, 9)
  })

  test('a tube on a tube of its own height: a scrap of it does; the end frames of a rack lie flat', () => {
    const rack = framed('rack', {}, metric)
    expect(loadsOf(rack.frame).map(({ name }) => name)).toEqual([
      'Left end frame',
      'Right end frame',
      'All together',
    ])
    expect(usualLying(rack.frame, loadOf(rack, 'pair-1'))).toBe('flat on its side')
    expect(under(rack, 'pair-1', 'flat on its side')).toEqual([])
    const block = { member: 'a', end: 'A', height: 40, tube: true } as const
    const frame = { members: [{ id: 'a', name: 'Bar 1' }] } as unknown as Framed['frame']
    expect(blockLines(frame, [block, { ...block, end: 'B' }], metric.reading)).toEqual([
      { title: 'Bar 1', text: 'block 40 mm under both ends: a scrap of tube that is 40 mm high does' },
    ])
  })
})

describe('centering', () => {
  test('post 80 in a hexagon of 346 a side: 259.6 from the flats, 306 from the corners', () => {
    const made = framed('pedestal', {}, metric)
    const centers = centersOf(made.frame, loopsOf(made.frame), made.parts)
    expect(centers.map(({ member }) => member)).toEqual(['base/post', 'base/post'])
    const number = (of: Outermost) => ('number' in of ? of.number : 0)
    const flat = centers.find(({ from }) => from[0].kind === 'side')!
    const corner = centers.find(({ from }) => from[0].kind === 'corner')!
    const post = made.frame.members.find(({ id }) => id === 'base/post')!.section.width
    expect(post).toBe(80)
    for (const mm of flat.distance) expect(mm).toBeCloseTo((346 * Math.sqrt(3)) / 2 - post / 2, 6)
    for (const mm of corner.distance) expect(mm).toBeCloseTo(346 - post / 2, 6)
    expect(Math.abs(number(flat.from[0]) - number(flat.from[1]))).toBe(3)
  })

  test('post 80 on a base plate of 400: 160 from each edge both ways, square or round; a cap has no such figure', () => {
    for (const [baseShape, kind] of [
      ['square', 'edge'],
      ['round', 'rim'],
    ] as const) {
      const made = framed('pedestal', { base: 'base plate', baseShape, baseSize: 400 }, metric)
      const centers = plateCentersOf(made.frame)
      expect(centers.map(({ member, way }) => `${member} ${way}`)).toEqual([
        'base/post width',
        'base/post height',
      ])
      for (const { distance, from } of centers) {
        for (const mm of distance) expect(Math.abs(mm - (400 - 80) / 2)).toBeLessThan(0.2)
        expect(from.map((one) => one.kind)).toEqual([kind, kind])
      }
      const sides = centers.flatMap(({ from }) => from.map((one) => ('lies' in one ? one.lies : '')))
      expect(sides.sort()).toEqual(['back', 'front', 'left', 'right'])
    }
    expect(plateCentersOf(framed('pedestal', {}, metric).frame)).toEqual([])
  })

  test('a post pushed aside and turned, measured with a tape: says how far and how much, for 40 rolls', () => {
    const roll = dice('stray')
    for (let round = 0; round < 40; round++) {
      const [aside, turn, wider] = [roll.between(-5, 5), roll.between(-1, 1), roll.between(-2, 2)]
      const [half, face] = [300 + wider, 60]
      const rad = (turn * Math.PI) / 180
      // Brute force: corners of a 60 mm post, turned and shifted in x, between walls at ± half.
      const corners = [1, -1].flatMap((sx) => [1, -1].map((sy) => [sx, sy] as const))
      const x = (sx: number, sy: number) => aside + (sx * 30 * Math.cos(rad) - sy * 30 * Math.sin(rad))
      const gap = new Map(corners.map(([sx, sy]) => [`${sx} ${sy}`, half - sx * x(sx, sy)]))
      const stray = strayOf(
        { distance: [270, 270] },
        [gap.get('-1 1')!, gap.get('-1 -1')!],
        [gap.get('1 1')!, gap.get('1 -1')!],
      )
      expect(stray.move).toBeCloseTo(-aside, 9)
      expect(stray.turn).toBeCloseTo(-face * Math.sin(rad), 9)
    }
  })

  test('what lies across a side is measured from its edges only: 153.2 along, flush across', () => {
    const made = framed('pedestal', onBars, metric)
    const bar = standsOf(made.frame).find(({ by, on }) => by === 'base/bar-1' && on === 'top/side-1')!
    expect(bar.along.map((mm) => mm?.toFixed(1))).toEqual(['153.2', '153.2'])
    expect(bar.across[0]).toBeCloseTo(0, 6)
    expect(bar.across[1]).toBeUndefined()
    const arms = standLines(made, metric.reading).find(({ title }) => title.startsWith('Arm'))!
    expect(arms.title).toBe('Arm 1, 2, 3 and 4 on Post')
    expect(arms.across).toBe('15 mm on both sides')
  })

  test('names are said together', () => {
    expect(together(['Arm 1', 'Arm 2', 'Arm 3', 'Post'])).toBe('Arm 1, 2 and 3, Post')
    expect(together(['Post'])).toBe('Post')
  })
})

describe('the table of a repeat', () => {
  const laid = (made: Framed, id: string, lying: 'as it stands' | 'top side down' | 'flat on its side') => {
    const load = loadOf(made, id)
    const up = lyingsOf(made.frame, load).get(lying)!
    return layoutOf(made.frame, load, up, loopsOf(made.frame), made.parts, 100)
  }

  test('900 by 600, 100 from both edges: corners at 100 and 1000, 100 and 700; a bar in the middle', () => {
    const { corners, lines, width, depth, diagonals } = laid(
      framed('rect-frame', {}, metric),
      'frame',
      'as it stands',
    )
    expect(corners.map((at) => at.map((mm) => +mm.toFixed(6)))).toEqual([
      [100, 100],
      [1000, 100],
      [1000, 700],
      [100, 700],
    ])
    expect([width, depth]).toEqual([900, 600])
    for (const { expected } of diagonals) expect(expected).toBeCloseTo(1081.6654, 4)
    const bar = lines.find(({ member }) => member === 'bars/cross-bar-1')!
    // (900 − 25)/2 + 100, from inside of the front side to inside of the back one.
    expect(bar.from[0]).toBeCloseTo(537.5, 6)
    expect([bar.from[1], bar.to[1]].sort((a, b) => a - b)).toEqual([140, 660])
  })

  test('top side down is the mirror image: every corner as far from the right as it was from the left', () => {
    const made = framed('uneven-frame', {}, metric)
    const [stands, down] = [laid(made, 'frame', 'as it stands'), laid(made, 'frame', 'top side down')]
    for (const [at, [x, y]] of stands.corners.entries()) {
      expect(down.corners[at]![0]).toBeCloseTo(stands.width + 200 - x, 6)
      expect(down.corners[at]![1]).toBeCloseTo(y, 6)
    }
    for (const [at, { expected }] of stands.diagonals.entries())
      expect(down.diagonals[at]!.expected).toBeCloseTo(expected, 9)
  })

  test.each(['polygon-frame', 'rect-frame', 'uneven-frame', 'rack', 'trestle', 'from-points', 'pedestal'])(
    '%s: nothing nearer to the edges than 100; blocks on their lines, two widths off the joints or in the middle',
    (kind) => {
      const made = framed(kind, {}, metric)
      for (const load of loadsOf(made.frame)) {
        const { corners, outlines, lines, width, depth } = laid(made, load.id, usualLying(made.frame, load))
        const points = [...(load.ring ? corners : outlines.flatMap(({ outline }) => outline))]
        for (const k of [0, 1] as const)
          expect(Math.min(...points.map((point) => point[k]))).toBeCloseTo(100, 6)
        expect(Math.max(...points.map(([x]) => x))).toBeCloseTo(width + 100, 6)
        expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(depth + 100, 6)
        expect(depth).toBeLessThanOrEqual(width + 1)
        for (const { from, to, blocks, member } of lines) {
          const { section } = made.frame.members.find(({ id }) => id === member)!
          const off = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!)
          expect(blocks.length).toBeGreaterThan(0)
          for (const at of blocks) {
            expect(off(from, at) + off(at, to)).toBeCloseTo(off(from, to), 6)
            if (blocks.length === 2)
              expect(Math.min(off(from, at), off(at, to))).toBeGreaterThanOrEqual(
                2 * Math.min(section.width, section.height) - 1e-9,
              )
          }
        }
      }
    },
  )

  test('arms of a pedestal, mitered to their feet, are rectangles from above: 40 wide, as long as their long edge', () => {
    const made = framed('pedestal', {}, metric)
    const { outlines } = laid(made, 'base', 'as it stands')
    const arms = outlines.filter(({ member }) => member.startsWith('base/arm'))
    expect(arms).toHaveLength(4)
    const part = made.parts.find(({ members }) => members.includes('base/arm-1'))!
    for (const { outline } of arms) {
      const side = (at: number) =>
        Math.hypot(outline[at]![0] - outline[(at + 1) % 4]![0], outline[at]![1] - outline[(at + 1) % 4]![1])
      expect(side(0)).toBeCloseTo(part.longPoint, 6)
      expect(side(2)).toBeCloseTo(part.longPoint, 6)
      expect(side(1)).toBeCloseTo(part.section.width, 6)
    }
  })

  test('tube of 40 on slots of 16 bridges them, on slots of 22 it is laid on a plate', () => {
    const made = framed('polygon-frame', { sides: 6, size: 700, section: tube(40, 3) }, metric)
    const load = loadOf(made, 'top')
    expect(needPlate(made.frame, load, [0, 0, 1], { slot: 16 })).toEqual([])
    expect(needPlate(made.frame, load, [0, 0, 1], { slot: 22 })).toHaveLength(6)
    expect(needPlate(made.frame, load, [0, 0, 1], {})).toEqual([])
  })
})
