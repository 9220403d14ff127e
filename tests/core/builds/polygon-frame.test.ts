import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { endCorners } from '../../../src/core/frame/member.ts'
import { axisX } from '../../../src/core/geometry/pose.ts'
import { cross, dot, norm, sub } from '../../../src/core/geometry/vec3.ts'
import { framed, inches, metric, partOf, problems, sizeOf, tube } from './framed.ts'

const in1 = 25.4

describe('a polygon frame, by formula', () => {
  test('octagon, 18 in across corners, 1 in tube: long point 6.888 in, 6 7/8 strong (+1/64), 22½° (common practice)', () => {
    const made = framed(
      'polygon-frame',
      { sides: 8, sizeKind: 'across corners', size: '18', section: tube('1', '16 ga') },
      inches,
    )
    const part = partOf(made, 'Top side')
    expect(part.longPoint / in1).toBeCloseTo(18 * Math.sin(Math.PI / 8), 9)
    expect(part.printed.longPoint).toMatchObject({
      text: '6 7/8',
      unit: 'in',
      lies: 'strong',
      remainder: '+1/64',
    })
    expect(part.printed.angles.map(({ text }) => text)).toEqual(['22½°', '22½°'])
    expect(part.count).toBe(8)
    expect(part.shape).toBe('ends opposed')
    expect(sizeOf(made, 'across flats').exact / in1).toBeCloseTo(16.63, 2)
  })

  test('octagon, 36 in across flats, 1 1/2 tube: long 14.9117, short 13.669, mid 14.2904 in (reference 1.2)', () => {
    const made = framed('polygon-frame', { sides: 8, size: '36', section: tube('1 1/2', '1/8') }, inches)
    const part = partOf(made, 'Top side')
    expect(part.longPoint / in1).toBeCloseTo(14.9117, 4)
    expect(part.shortPoint / in1).toBeCloseTo(13.669, 4)
    expect(part.mid / in1).toBeCloseTo(14.2904, 4)
  })

  test('hexagon, 24 in across flats, 2 in tube: long 13.8564, short 11.5470 in, 30°', () => {
    const made = framed('polygon-frame', { sides: 6, size: '24', section: tube('2', '1/8') }, inches)
    const part = partOf(made, 'Top side')
    expect(part.longPoint / in1).toBeCloseTo(13.8564, 4)
    expect(part.shortPoint / in1).toBeCloseTo(11.547, 4)
    expect(part.angleFromSquare[0]).toBeCloseTo(30, 9)
  })

  test('hexagon, 700 mm across flats, 40 tube, reading 1 mm: 404 long, built 699.75 flats and 808 corners', () => {
    const made = framed('polygon-frame', { sides: 6, size: 700, section: tube(40, 3) }, metric)
    expect(partOf(made, 'Top side').printed.length.mm).toBe(404)
    expect(sizeOf(made, 'across flats').built).toBeCloseTo(699.7485, 4)
    expect(sizeOf(made, 'across corners').built).toBeCloseTo(808, 9)
  })

  test('a root gap of 2 mm takes (2/2)/cos 30° off each end along the axis, and the size stays 700', () => {
    const made = framed(
      'polygon-frame',
      { sides: 6, size: 700, section: tube(40, 3) },
      { ...metric, rootGap: 2 },
    )
    const part = partOf(made, 'Top side')
    expect(part.longPoint).toBeCloseTo(404.145188 - 2 / Math.cos(Math.PI / 6), 5)
    expect(sizeOf(made, 'across flats').exact).toBeCloseTo(700, 9)
  })

  test('60 × 40 tube lies flat with 60 in the plane, on edge with 40', () => {
    const section = { kind: 'rect-tube', width: 60, height: 40, wall: 3 } as const
    const flat = framed('polygon-frame', { sides: 5, size: 600, section }, metric)
    const edge = framed('polygon-frame', { sides: 5, size: 600, section, stands: 'on edge' }, metric)
    const loss = 2 * Math.tan(Math.PI / 5)
    expect(partOf(flat, 'Top side').shortPoint).toBeCloseTo(partOf(flat, 'Top side').longPoint - 60 * loss, 9)
    expect(partOf(edge, 'Top side').shortPoint).toBeCloseTo(partOf(edge, 'Top side').longPoint - 40 * loss, 9)
    expect(flat.frame.size[2]).toBeCloseTo(40, 9)
    expect(edge.frame.size[2]).toBeCloseTo(60, 9)
  })

  test('a plate overhanging by 10 is 20 wider across flats; set in by 10, 20 less', () => {
    const span = (topEdge: string) => {
      const plate = framed(
        'polygon-frame',
        { sides: 6, size: 700, section: tube(40, 3), top: 'plate', topThickness: 5, topEdge, topEdgeBy: 10 },
        metric,
      ).frame.plates[0]!
      const ys = plate.polygon.map(([, y]) => y)
      return Math.max(...ys) - Math.min(...ys)
    }
    expect(span('flush')).toBeCloseTo(700, 9)
    expect(span('overhang')).toBeCloseTo(720, 9)
    expect(span('inset')).toBeCloseTo(680, 9)
  })
})

describe('bad input says what was given and what is possible', () => {
  const first = (params: Parameters<typeof problems>[1]) => problems('polygon-frame', params, metric)[0]

  test.each([
    [{ sides: 2 }, 'build.params.sides', /given as 2; it must be 3 or more/],
    [{ sides: 17 }, 'build.params.sides', /given as 17; it must be 16 or less/],
    [{ sides: 2.5 }, 'build.params.sides', /2\.5; it must be a whole number/],
    [{ sides: '2.5' }, 'build.params.sides', /2\.5/],
    [{ size: 30 }, 'build.params.size', /30 mm .* must be more than 80 mm/],
    [{ size: '7/0' }, 'build.params.size', /7\/0/],
    [{ size: '1 1/2 3' }, 'build.params.size', /1 1\/2 3|3/],
    [{ size: '' }, 'build.params.size', /empty|nothing/i],
    [{ size: Number.NaN }, 'build.params.size', /NaN/],
    [{ section: tube(40, 20) }, 'build.params.section', /20/],
    [
      { size: 600, top: 'plate', topThickness: 5, topEdge: 'inset', topEdgeBy: 300 },
      'build.params.topEdgeBy',
      /300 mm leaves nothing .* less than 300 mm/,
    ],
    [
      { sizeKind: 'wide' },
      'build.params.sizeKind',
      /"wide"; it can be across flats, across corners, side, clear inside/,
    ],
    [{ section: { kind: 'round-tube', width: 40, wall: 3 } }, 'build.params.section', /round tube/],
    [{ color: 'red' }, 'build.params.color', /no parameter of polygon frame/],
  ])('%j', (params, field, text) => {
    const problem = first(params as Parameters<typeof problems>[1])
    expect(problem?.field?.startsWith(field)).toBe(true)
    expect(problem?.text).toMatch(text)
  })

  test('80.0 mm across flats leaves no steel inside 40 mm tube, 80.1 mm does', () => {
    expect(problems('polygon-frame', { size: 80, section: tube(40, 3) }, metric)).toHaveLength(1)
    expect(problems('polygon-frame', { size: 80.1, section: tube(40, 3) }, metric)).toEqual([])
  })
})

describe('for random n, size and section', () => {
  const cases = fc.record({
    sides: fc.integer({ min: 3, max: 16 }),
    size: fc.double({ min: 300, max: 3000, noNaN: true }),
    width: fc.integer({ min: 20, max: 40 }),
    height: fc.integer({ min: 20, max: 40 }),
    stands: fc.constantFrom('flat', 'on edge'),
    sizeKind: fc.constantFrom('across corners', 'across flats', 'clear inside'),
  })

  test('turning angles sum to 360° and the parts laid head to tail close to within 1e-6 mm', () => {
    fc.assert(
      fc.property(cases, ({ width, height, ...params }) => {
        const section = { kind: 'rect-tube', width, height, wall: 2 } as const
        const { members } = framed('polygon-frame', { ...params, section }, metric).frame
        let turning = 0
        members.forEach((member, at) => {
          const next = members[(at + 1) % members.length]!
          const [one, two] = [axisX(member.pose), axisX(next.pose)]
          turning += Math.atan2(norm(cross(one, two)), dot(one, two))
          // Long points of one end lie on those of the next: the ring closes.
          const here = endCorners(member, 'B')
          const there = endCorners(next, 'A')
          here.forEach((corner, edge) => {
            expect(norm(sub(corner, there[edge]!))).toBeLessThan(1e-6)
          })
        })
        expect(turning).toBeCloseTo(2 * Math.PI, 9)
      }),
    )
  })

  test('every side carries one mark', () => {
    fc.assert(
      fc.property(cases, ({ width, height, ...params }) => {
        const section = { kind: 'rect-tube', width, height, wall: 2 } as const
        const { parts } = framed('polygon-frame', { ...params, section }, metric)
        expect(parts.map(({ mark, count }) => [mark, count])).toEqual([['A', params.sides]])
      }),
    )
  })
})

describe.each(['polygon-frame', 'pedestal'])('%s: a top that is set in', (kind) => {
  const codes = (topEdgeBy: number, stands = 'flat') =>
    framed(
      kind,
      {
        size: 700,
        section: { kind: 'rect-tube', width: 60, height: 40, wall: 3 },
        stands,
        top: 'plate',
        topEdge: 'inset',
        topEdgeBy,
      },
      metric,
    ).frame.warnings.flatMap(({ code }) => (code === 'top-through-the-frame' ? [code] : []))

  test('lies on 60 wide tube at 59.9 mm, goes through the frame at 60.0 mm, and that is said', () => {
    expect(codes(59.9)).toEqual([])
    expect(codes(60)).toEqual(['top-through-the-frame'])
  })

  test('the same tube on edge is 40 wide', () => {
    expect(codes(39.9, 'on edge')).toEqual([])
    expect(codes(40, 'on edge')).toEqual(['top-through-the-frame'])
  })
})
