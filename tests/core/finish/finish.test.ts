import { describe, expect, test } from 'vitest'
import { feetOf, footPlate } from '../../../src/core/finish/floor.ts'
import { leveling } from '../../../src/core/finish/leveling.ts'
import { finishSteps } from '../../../src/core/finish/steps.ts'
import { girthOf, surfaceOf } from '../../../src/core/finish/surface.ts'
import { tappingsOf } from '../../../src/core/finish/tapping.ts'
import { closedTubes } from '../../../src/core/finish/vents.ts'
import { threadsIn } from '../../../src/core/thread.ts'
import { weldPlan } from '../../../src/core/weld/order.ts'
import { framed, inches, metric, tube } from '../builds/framed.ts'

describe('outside surface', () => {
  test('2 in square tube with sharp corners has 8 in of girth; R 1/4 in takes 0.43 in off', () => {
    const section = { kind: 'square-tube', width: 50.8, height: 50.8, wall: 3.175, cornerRadius: 0 } as const
    expect(girthOf(section) / 25.4).toBeCloseTo(8, 9)
    expect(girthOf({ ...section, cornerRadius: 6.35 }) / 25.4).toBeCloseTo(8 - (8 - 2 * Math.PI) / 4, 9)
  })
  test('a hexagon of 40 tube, 700 across flats: six mean lengths of 381.05 of its girth', () => {
    const { frame } = framed('polygon-frame', { sides: 6, size: 700, section: tube(40, 3) }, metric)
    const { section } = frame.members[0]!
    expect(surfaceOf(frame)).toBeCloseTo(6 * 2 * 330 * Math.tan(Math.PI / 6) * girthOf(section), 3)
  })
})

describe('drill and tap', () => {
  test('pedestal feet of an inch shop: 3/8-16 in 3/8 plate, drill 5/16, six threads, one diameter', () => {
    const { frame } = framed('pedestal', {}, inches)
    const [tapping, ...others] = tappingsOf(frame)
    expect(others).toEqual([])
    expect(tapping).toMatchObject({ holes: 4, diameters: 1 })
    expect(threadsIn(tapping!.thread.name, tapping!.thickness).threads).toBeCloseTo(6, 9)
    expect([tapping!.thread.name, tapping!.thread.drillName]).toEqual(['3/8-16', '5/16'])
    expect(tapping!.countersink).toBeGreaterThan(9.525)
  })
})

describe('steps', () => {
  test('a hexagon: flats, then the corner, of each joint; vents for the closed ring; nothing to tap', () => {
    const { frame, shop } = framed('polygon-frame', { sides: 6, size: 700, section: tube(40, 3) }, metric)
    const steps = finishSteps(frame, weldPlan(frame, shop))
    const grind = steps.filter(({ group }) => group === 'grind').map(({ id }) => id)
    expect(grind.slice(0, 2)).toEqual(['finish:grind:top/corner-1/flats', 'finish:grind:top/corner-1/corner'])
    expect(grind).toHaveLength(13)
    expect(steps.some(({ group }) => group === 'drill and tap')).toBe(false)
    expect(closedTubes(frame)).toHaveLength(6)
    expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length)
  })
  const left = (kind: string, params = {}) => {
    const { frame, shop } = framed(kind, params, metric)
    return finishSteps(frame, weldPlan(frame, shop))
  }
  const texts = (kind: string, params = {}) =>
    left(kind, params)
      .map(({ text, why }) => `${text} ${why}`)
      .join('\n')
  test('feet are turned only where there are any, and holes plugged only where any are tapped', () => {
    expect(texts('four-leg')).toMatch(/on 4 blocks of one height, and turn the feet/)
    expect(texts('four-leg')).toMatch(/plug the tapped holes/)
    const plain = texts('four-leg', { levelers: false })
    expect(plain).not.toMatch(/turn the feet|plug|painted thread/)
    expect(plain).toMatch(/Stand it on a flat floor\. If it rocks/)
  })
  test.each(['polygon-frame', 'rect-frame', 'uneven-frame', 'loose-top'])(
    'a %s lies on something else: nothing to level, nothing to plug',
    (kind) => {
      expect(left(kind).some(({ group }) => group === 'level')).toBe(false)
      expect(texts(kind)).not.toMatch(/plug|rocks/)
    },
  )
  test('three arms have three feet; a pedestal without feet that turn is tried on a floor', () => {
    expect(texts('pedestal', { arms: '3', bars: 'spider' })).toContain('on 3 blocks of one height')
    expect(texts('pedestal', { levelers: false })).toContain('Stand it on a flat floor')
    expect(texts('pedestal', { base: 'base plate', levelers: false })).toContain('Stand it on a flat floor')
  })
  test('holes of a base plate are not in its middle', () => {
    expect(texts('pedestal')).toContain('Find the middle of each cap')
    expect(texts('pedestal', { base: 'base plate' })).not.toContain('cap')
    expect(texts('pedestal', { base: 'base plate' })).toContain('punch mark of each hole')
  })
  test('feet are told by where they lie, seen from above', () => {
    const lies = (kind: string, params = {}) =>
      feetOf(framed(kind, params, metric).frame).map((foot) => foot.lies)
    expect(lies('four-leg')).toEqual(['front left', 'front right', 'back right', 'back left'])
    expect(lies('pedestal', { base: 'base plate', baseShape: 'square' })).toHaveLength(4)
    expect(new Set(lies('pedestal')).size).toBe(4)
    expect(footPlate(framed('pedestal', { base: 'base plate' }, metric).frame)).toBe('base plate')
    expect(footPlate(framed('pedestal', {}, metric).frame)).toBeUndefined()
  })
  test('four plain legs without caps are open at the floor and need no vent', () => {
    const { frame } = framed('four-leg', { caps: false, levelers: false }, metric)
    const closed = closedTubes(frame).map(({ id }) => id)
    expect(closed.filter((id) => id.includes('leg'))).toEqual([])
  })
})

describe('leveling', () => {
  test('a floor 6 mm low under foot 3: feet from 10 to 25 stand at 14.5 and 20.5', () =>
    expect(leveling([0, 0, 6, 0], 10, 25)).toEqual({ settings: [14.5, 14.5, 20.5, 14.5], beyond: [] }))
  test('16 mm low is more than 15 of range: foot 2 cannot reach it', () =>
    expect(leveling([0, 16], 10, 25).beyond).toEqual([2]))
})
