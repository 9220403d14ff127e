import { describe, expect, test } from 'vitest'
import { polygonFrame } from '../../../src/core/builds/polygon-frame.ts'
import { checkRun } from '../../../src/core/check/check-run.ts'
import type { Frame } from '../../../src/core/frame/frame.ts'
import { cutEnd, member } from '../../../src/core/frame/member.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import { partsOf } from '../../../src/core/parts/parts.ts'
import type { Part, Run, SetUp, StickFace } from '../../../src/core/plan-shapes.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import { type Pin, pinSeams } from '../../../src/core/saw/seam.ts'
import { turnsOnto } from '../../../src/core/saw/stick-demand.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { nest, nestSection, part, shop, tube } from './sample.ts'

const set = shop()

function hexagon(section: Section = tube(40), stands = 'flat'): Frame {
  const values = { sides: 6, sizeKind: 'across flats', size: 700, section, stands, top: 'none' }
  const frame = polygonFrame.frame(values, { gap: 0, say: String })
  if (!frame.ok) throw new Error(frame.problems.map(({ text }) => text).join('\n'))
  return frame.value
}

const pinned = (frame: Frame, pin: Pin) => pinSeams(partsOf(frame.members, set), frame, pin)
const seamsOf = (frame: Frame, pin: Pin) => pinned(frame, pin).parts.map(({ seam }) => seam)

function runOf(parts: readonly Part[]) {
  const marks = parts.flatMap(({ mark, count }) => Array.from({ length: count }, () => mark))
  const on = nest([nestSection(parts, { sticks: [marks], step: 1 })])
  const run = planRun(on, parts, set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join('\n'))
  const faults = (of: Run) => checkRun(of, on, parts, set).faults
  return { run: run.value, faults }
}

/** A frame of nothing but these members, in one assembly. */
const loose = (members: Frame['members']): Frame => ({
  members,
  plates: [],
  joints: [],
  hardware: [],
  assemblies: [{ id: 'a', name: 'A', members: members.map(({ id }) => id) }],
  measures: [],
  warnings: [],
  size: [0, 0, 0],
  floor: 0,
})

describe('a hexagon frame lying flat, sides of equal opposed ends', () => {
  test('pinned on top or bottom both faces are right, since a half turn brings a side onto itself', () => {
    for (const pin of ['top', 'bottom'] as const)
      expect(seamsOf(hexagon(), pin)).toEqual([Array(6).fill(['+z', '-z'])])
  })

  test('pinned outside only the long side is right, inside only the short one', () => {
    expect(seamsOf(hexagon(), 'outside')).toEqual([Array(6).fill(['-y'])])
    expect(seamsOf(hexagon(), 'inside')).toEqual([Array(6).fill(['+y'])])
    expect(pinned(hexagon(), 'inside').warnings).toEqual([])
  })

  test('from the stick: on top it may be turned every way, outside only about the line off the fence', () => {
    const [top] = seamsOf(hexagon(), 'top')[0]!
    const [outside] = seamsOf(hexagon(), 'outside')[0]!
    const turns = (faces: readonly StickFace[], on = faces[0] ?? '+z') =>
      turnsOnto(on, { ...part({ length: 400, ends: [30, 30] }), seam: [faces] })
    expect(turns(top!)).toEqual(['none', 'over', 'end', 'flip'])
    expect(turns(outside!)).toEqual(['none', 'flip'])
    expect(turns(outside!, '+y')).toEqual(['over', 'end'])
    expect(turns(['+z'])).toEqual(['none', 'end'])
    expect(turns([])).toEqual(['none', 'over', 'end', 'flip'])
    // A stick with its seam on top serves no piece that wants it outside.
    expect(turns(outside!, '+z')).toEqual([])
  })

  test('the set-up says where the seam goes, one for both ends; the judge follows it through the turn', () => {
    const top = runOf(pinned(hexagon(), 'top').parts)
    expect(top.run.setUps.map(({ id, seam, printed }) => [id, seam, printed.seam])).toEqual([
      ['A/blank/1', undefined, undefined],
      ['A/both/1', 'up', 'weld seam up at the first end'],
    ])
    expect(top.faults(top.run)).toEqual([])
    const outside = runOf(pinned(hexagon(), 'outside').parts)
    expect(outside.run.setUps[1]).toMatchObject({ seam: 'fence', longSide: 'fence' })
    expect(outside.faults(outside.run)).toEqual([])
    const inside = runOf(pinned(hexagon(), 'inside').parts)
    expect(inside.run.setUps[1]!.printed.seam).toBe(
      'weld seam away from the fence, toward you at the first end',
    )
    expect(inside.faults(inside.run)).toEqual([])
  })

  test.each(['down', 'outward', undefined] as const)(
    'pinned outside, a set-up that says %s is refused',
    (says) => {
      const { run, faults } = runOf(pinned(hexagon(), 'outside').parts)
      const setUps = run.setUps.map((setUp): SetUp => {
        if (!setUp.id.includes('both')) return setUp
        const { seam: _, ...bare } = setUp
        return says === undefined ? bare : { ...bare, seam: says }
      })
      expect(faults({ ...run, setUps })).toHaveLength(6)
      expect(faults({ ...run, setUps })[0]).toMatch(/piece A\d: .*weld seam/)
    },
  )

  test('geometry keys are those of the free job', () => {
    const free = partsOf(hexagon().members, set)
    expect(pinned(hexagon(), 'outside').parts.map(({ key }) => key)).toEqual(free.map(({ key }) => key))
    expect(pinSeams(free, hexagon(), undefined).parts).toBe(free)
  })
})

describe('where a pin cannot be kept, it is said', () => {
  /** A bar along x at this y, both ends cut by parallel planes. */
  const slanted = (id: string, y: number, up: Vec3, normal: Vec3) => {
    const plain = member(id, id, tube(40), [0, y, 0], [500, y, 0], up)
    return cutEnd(cutEnd(plain, 'A', [0, y, 0], normal, 'open'), 'B', [500, y, 0], normal, 'open')
  }

  test('two pieces of one shape, one with its mate’s underside on top: kept apart, cut in set-ups of their own', () => {
    // Parallel ends leaning in height: end for end about the line across, the shape is its own copy, its top is not.
    const low = slanted('low', 0, [0, 0, 1], [1, 0, 0.3])
    const high = slanted('high', 300, [0, 0, -1], [1, 0, 0.3])
    const side = slanted('side', 600, [0, 1, 0], [1, 0.3, 0])
    const { parts, warnings } = pinned(loose([low, high, side]), 'top')
    expect(parts).toHaveLength(1)
    // The miter leans up in the first two and across in the third.
    expect(parts[0]!.seam).toEqual([
      ['+y', '-y'],
      ['+y', '-y'],
      expect.arrayContaining([expect.stringMatching(/z/)]),
    ])
    expect(warnings.map(({ code }) => code)).toEqual(['seam-apart'])
    expect(warnings[0]!.text).toContain('of A1, A2 than of A3')
    const { run, faults } = runOf(parts)
    expect(faults(run)).toEqual([])
    const stations = run.setUps.filter(({ id }) => !id.includes('blank'))
    expect(new Set(stations.map(({ seam }) => seam)).size).toBeGreaterThan(1)
    for (const { pieces } of stations)
      expect(
        pieces.some((piece) => piece.startsWith('A3')) && pieces.some((piece) => piece.startsWith('A1')),
      ).toBe(false)
  })

  test('a post has no side that looks up; a bar through the middle has no inside', () => {
    const post = member('post', 'Post', tube(40), [0, 0, 0], [0, 0, 700], [0, 1, 0])
    const { parts, warnings } = pinned(loose([post]), 'top')
    expect(parts[0]!.seam).toEqual([[]])
    expect(warnings).toEqual([
      {
        code: 'seam-no-side',
        text: 'No one side of Post looks up: there the weld seam may lie anywhere.',
        members: ['post'],
      },
    ])
    const bars = [-200, 0, 200].map((y) =>
      member(`bar ${y}`, `Bar ${y}`, tube(40), [-300, y, 0], [300, y, 0], [0, 0, 1]),
    )
    expect(pinned(loose(bars), 'inside').warnings[0]!.members).toEqual(['bar 0'])
  })

  test('rolled 44° a tube has a side that looks up, at 45° it has two alike', () => {
    const at = (deg: number) => {
      const turn = (deg * Math.PI) / 180
      return member('bar', 'Bar', tube(40), [0, 0, 0], [600, 0, 0], [0, Math.sin(turn), Math.cos(turn)])
    }
    expect(pinned(loose([at(44)]), 'top').warnings).toEqual([])
    expect(pinned(loose([at(45)]), 'top').warnings[0]!.code).toBe('seam-no-side')
  })

  test('60 × 40 with the seam on top of one bar lying flat and one on edge: a stick has it on one side only', () => {
    const section = tube(60, 40)
    const flat = member('flat', 'Flat', section, [0, 0, 0], [600, 0, 0], [0, 0, 1])
    const edge = member('edge', 'Edge', section, [0, 300, 0], [500, 300, 0], [0, 1, 0])
    expect(pinned(loose([flat, edge]), 'top').warnings.map(({ code }) => code)).toEqual(['seam-both-sides'])
    expect(pinned(loose([flat]), 'top').warnings).toEqual([])
  })

  test('solid bar has no seam, round tube is left to a mark', () => {
    const bar: Section = { kind: 'flat-bar', width: 40, height: 8, wall: 0, cornerRadius: 0 }
    expect(
      pinned(loose([member('f', 'Flat', bar, [0, 0, 0], [300, 0, 0], [0, 0, 1])]), 'top').parts[0]!.seam,
    ).toBe(undefined)
    const pipe: Section = { kind: 'round-tube', width: 42.4, height: 42.4, wall: 2.6, cornerRadius: 21.2 }
    const rail = member('r', 'Rail', pipe, [0, 0, 0], [300, 0, 0], [0, 0, 1])
    expect(pinned(loose([rail]), 'top').warnings.map(({ code }) => code)).toEqual(['seam-round'])
  })
})
