import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { member } from '../../../src/core/frame/member.ts'
import { area, type Point } from '../../../src/core/geometry/polygon.ts'
import { plan } from '../../../src/core/plan.ts'
import type { Plan } from '../../../src/core/plan-shapes.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { labelAt } from '../../../src/ui/drawing/dimension-label.tsx'
import { circleOf, dimensionsOf } from '../../../src/ui/drawing/dimensions.ts'
import { typedLengths } from '../../../src/ui/drawing/fields.ts'
import { layOut } from '../../../src/ui/drawing/layout.ts'
import { marksOf, partLine } from '../../../src/ui/drawing/marks.ts'
import { backToFront } from '../../../src/ui/drawing/shapes.ts'
import { fitIn, pathOf, toScreen } from '../../../src/ui/drawing/sheet.ts'
import { memberSolid, solidsOf } from '../../../src/ui/drawing/solid.ts'
import { fromAbove, fromFront, together, turned } from '../../../src/ui/drawing/view.ts'
import { hull } from '../../../src/ui/drawing/visible.ts'
import { jobOf } from '../shell/fake-app.tsx'

const tube: Section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 }

function planned(kind: string, params: Parameters<typeof jobOf>[1] = {}): Plan {
  const made = plan(jobOf(kind, params), startShop('mm'))
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join(' '))
  return made.value
}

const typedOf = (kind: string, params: Parameters<typeof jobOf>[1] = {}) =>
  typedLengths(buildOf(kind)!.params, jobOf(kind, params).build.params, 'mm')

describe('what is seen of a hexagon of 700 across flats in 40 tube', () => {
  const hexagon = planned('polygon-frame', { size: 700 })

  test('from above the six members cover the ring between the two hexagons, formula 2√3(R² − r²)', () => {
    const seen = backToFront(solidsOf(hexagon.frame), fromAbove)
    const covered = seen.reduce((sum, { outline }) => sum + Math.abs(area(outline)), 0)
    // Area of a regular hexagon from its inradius r: 2√3 r².
    expect(covered).toBeCloseTo(2 * Math.sqrt(3) * (350 ** 2 - 310 ** 2), 3)
  })

  test('a side is a trapezoid of 404.145 by 357.957 and 40 deep: 700 tan 30°, less 2 · 40 tan 30°', () => {
    const side = backToFront(solidsOf(hexagon.frame), fromAbove).find(({ id }) => id === 'top/side-1')!
    const long = 700 * Math.tan(Math.PI / 6)
    const short = long - 80 * Math.tan(Math.PI / 6)
    expect(side.outline).toHaveLength(4)
    // Outlines lie on a grid of 1e-6 mm: an area is good to that times the way round.
    expect(Math.abs(area(side.outline))).toBeCloseTo(((long + short) / 2) * 40, 2)
    expect(side.extent.right - side.extent.left).toBeCloseTo(404.145, 3)
  })

  test('700 across flats leads to the field “size”; 808.29 across corners is named and leads nowhere', () => {
    const shown = dimensionsOf(hexagon, typedOf('polygon-frame', { size: 700 }))
    const flats = shown.find(({ view, side }) => view === 'plan' && side === 'left')!
    expect(flats.to - flats.from).toBeCloseTo(700, 6)
    expect(flats).toMatchObject({ name: 'across flats', field: 'size' })
    const corners = shown
      .filter(({ side }) => side === 'bottom')
      .find(({ name }) => name === 'across corners')!
    // 700 / cos 30° = 808.29
    expect(corners.to - corners.from).toBeCloseTo(808.29, 2)
    expect(corners.field).toBeUndefined()
    expect(shown.find(({ name }) => name === 'side')).toBeTruthy()
  })

  test('the same size typed as 70 cm finds its field too, a height that was not typed finds none', () => {
    const shown = dimensionsOf(hexagon, typedOf('polygon-frame', { size: '70 cm' }))
    expect(shown.filter(({ field }) => field === 'size')).toHaveLength(1)
    expect(shown.find(({ view }) => view === 'front')).not.toHaveProperty('field')
  })

  test('every side carries the mark A, in the middle of its steel', () => {
    const seen = backToFront(solidsOf(hexagon.frame), fromAbove)
    const place = fitIn(
      { left: -404, right: 404, bottom: -350, top: 350 },
      { x: 0, y: 0, width: 600, height: 520 },
    )
    const marks = marksOf(hexagon, seen, place)
    expect(marks.map(({ mark }) => mark)).toEqual(['A', 'A', 'A', 'A', 'A', 'A'])
    // Center of area of the trapezoid between the hexagons: 350 − 40 (L + 2s) / (3 (L + s)) from the middle.
    const [long, short] = [404.145, 357.957]
    const away = 350 - (40 * (long + 2 * short)) / (3 * (long + short))
    for (const { at } of marks)
      expect(Math.hypot((at[0] - 300) / place.scale, (at[1] - 260) / place.scale)).toBeCloseTo(away, 3)
  })

  test('a plate on top carries its mark halfway to its first corner: its middle is left to the size', () => {
    const covered = planned('polygon-frame', { size: 700, top: 'plate', topThickness: 5 })
    const seen = backToFront(solidsOf(covered.frame), fromAbove, ({ kind }) => kind === 'plate')
    const place = { scale: 0.5, x: 500, y: 500 }
    const plates = marksOf(covered, seen, place).filter(({ mark }) => mark === 'P1')
    expect(plates).toHaveLength(1)
    const [x, y] = plates[0]!.at
    // Halfway to a corner of the hexagon: 350 / cos 30° / 2 = 202.07 mm.
    expect(Math.hypot(x - 500, y - 500) / place.scale).toBeCloseTo(202.07, 1)
    // From the front it is 5 mm thick, 2.5 px: no room for a mark.
    const front = backToFront(solidsOf(covered.frame), fromFront)
    expect(marksOf(covered, front, place).map(({ mark }) => mark)).not.toContain('P1')
  })

  test('the chosen part shows a line as long as its long point: in the ring, or outside where that has no room', () => {
    const seen = backToFront(solidsOf(hexagon.frame), fromAbove)
    const place = { scale: 1, x: 500, y: 500 }
    const box = { left: 96, right: 904, top: 150, bottom: 850 }
    const line = partLine(hexagon.parts[0]!, seen, { place, box })!
    expect(Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1])).toBeCloseTo(404.145, 3)
    // The side of 40 mm at the front of the ring, from 810 to 850 px, and 18 px from it.
    expect((line.from[1] + line.to[1]) / 2).toBeCloseTo(792, 3)
    const strip = partLine(hexagon.parts[0]!, seen, { place, box: { ...box, top: 800 } })!
    expect((strip.from[1] + strip.to[1]) / 2).toBeCloseTo(868, 3)
  })
})

describe('an odd polygon', () => {
  test('of five sides, 600 touching the sides: the circle of 600 leads to the field', () => {
    const five = { sides: 5, size: 600 }
    const frame = planned('polygon-frame', five)
    const typed = typedOf('polygon-frame', five)
    const circle = circleOf(frame, typed, dimensionsOf(frame, typed))
    expect(circle).toMatchObject({ name: 'circle touching the sides', field: 'size' })
    expect(circle?.diameter).toBeCloseTo(600, 6)
    expect(Math.hypot(...circle!.center)).toBeLessThan(1e-6)
  })
  test('whose side was given has that side as a dimension, and no circle', () => {
    const five = { sides: 5, size: 500, sizeKind: 'side' }
    const frame = planned('polygon-frame', five)
    const typed = typedOf('polygon-frame', five)
    const shown = dimensionsOf(frame, typed)
    expect(shown.find(({ field }) => field === 'size')).toMatchObject({ name: 'side', view: 'plan' })
    expect(circleOf(frame, typed, shown)).toBeNull()
  })
})

describe('a pedestal of 740 height', () => {
  const pedestal = planned('pedestal')
  const shown = dimensionsOf(pedestal, typedOf('pedestal'))
  test('has its overall height in the elevation, measured from the floor, and it leads to its field', () => {
    const height = shown.find(({ name }) => name === 'overall height')!
    expect([height.from, height.to]).toEqual([0, expect.closeTo(740, 6)])
    expect(height).toMatchObject({ view: 'front', side: 'right', field: 'height' })
  })
  test('has what is clear under its arms', () => {
    const size = pedestal.sizes.find(({ name }) => name === 'clear under the arms')!
    const clear = shown.find(({ name }) => name === 'clear under the arms')!
    expect(clear.to - clear.from).toBeCloseTo(size.exact, 6)
  })
  test('600 across flats and feet 600 apart: each dimension leads to its own field', () => {
    const same = { size: 600, spread: 600 }
    const table = planned('pedestal', same)
    const fields = dimensionsOf(table, typedOf('pedestal', same)).flatMap(({ view, side, field }) =>
      field ? [`${view} ${side}: ${field}`] : [],
    )
    expect(fields).toEqual([
      'front right: footHeight',
      'plan left: size',
      'front bottom: spread',
      'front right: height',
    ])
  })
  test('feet as far apart as the table is high: no dimension leads to the wrong one of the two', () => {
    const same = { height: 740, spread: 740 }
    const lines = dimensionsOf(planned('pedestal', same), typedOf('pedestal', same))
    expect(lines.filter(({ side }) => side === 'bottom').map(({ field }) => field)).not.toContain('height')
    expect(lines.find(({ name }) => name === 'overall height')).toMatchObject({ field: 'height' })
  })
  test('a clear gap that was given leads to its field, one that follows does not', () => {
    const given = { footGives: 'clear under arm', clearUnder: 80 }
    const of = (params: Parameters<typeof jobOf>[1]) =>
      dimensionsOf(planned('pedestal', params), typedOf('pedestal', params)).find(({ name }) =>
        name.startsWith('clear'),
      )
    expect(of(given)).toMatchObject({ name: 'clear under the arms', field: 'clearUnder' })
    expect(of({})).not.toHaveProperty('field')
  })
  test('from above, the ring is drawn after the bars that lie under it', () => {
    const order = backToFront(solidsOf(pedestal.frame), fromAbove).map(({ id }) => id)
    const lying = pedestal.landings.filter(({ on, by }) => on.startsWith('top/') && by.startsWith('base/bar'))
    expect(lying.length).toBeGreaterThanOrEqual(4)
    for (const { on, by } of lying) expect(order.indexOf(by)).toBeLessThan(order.indexOf(on))
  })
  test('from the front, the near foot is drawn after the post behind it', () => {
    const order = backToFront(solidsOf(pedestal.frame), fromFront).map(({ id }) => id)
    const front = order.filter((id) => id.startsWith('base/foot')).at(-1)!
    const foot = memberSolid(pedestal.frame.members.find(({ id }) => id === front)!)
    expect(Math.max(...foot.points.map(([, y]) => y))).toBeLessThan(0)
    expect(order.indexOf('base/post')).toBeLessThan(order.indexOf(front))
  })
})

describe('one over the other', () => {
  test('of two crossing bars the upper is drawn last, from any side above', () => {
    const low = memberSolid(member('low', 'low', tube, [-300, 0, 20], [300, 0, 20], [0, 0, 1]))
    const high = memberSolid(member('high', 'high', tube, [0, -300, 60], [0, 300, 60], [0, 0, 1]))
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 5, max: 90 }), (yaw, pitch) => {
        for (const both of [
          [low, high],
          [high, low],
        ])
          expect(backToFront(both, turned(yaw, pitch)).map(({ id }) => id)).toEqual(['low', 'high'])
      }),
    )
  })

  test('however it is turned, a box of 40 × 40 × 600 covers what its three faces cover, by formula, and its rim is drawn once round', () => {
    const box = memberSolid(member('box', 'box', tube, [0, 0, 0], [600, 0, 0], [0, 0, 1]))
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), fc.integer({ min: -90, max: 90 }), (yaw, pitch) => {
        const view = turned(yaw, pitch)
        const [seen] = backToFront([box], view)
        // The shadow of a box is the sum of its faces, each times the cosine to the light.
        const [x, y, z] = view.toward.map(Math.abs)
        const shadow = 40 * 40 * x! + 600 * 40 * y! + 600 * 40 * z!
        expect(area(seen!.outline)).toBeCloseTo(shadow, 2)
        const round = seen!.outline.reduce((sum, from, at) => {
          const to = seen!.outline[(at + 1) % seen!.outline.length]!
          return sum + Math.hypot(to[0] - from[0], to[1] - from[1])
        }, 0)
        const drawn = seen!.rim.reduce(
          (sum, [from, to]) => sum + Math.hypot(to[0] - from[0], to[1] - from[1]),
          0,
        )
        expect(drawn).toBeCloseTo(round, 2)
      }),
    )
  })
})

test('a round tube of 60 looks 60 wide from every side, and shows no lines along its length', () => {
  const round: Section = { kind: 'round-tube', width: 60, height: 60, wall: 3, cornerRadius: 30 }
  const solid = memberSolid(member('r', 'r', round, [0, 0, 0], [0, 0, 500], [0, 1, 0]))
  const [seen] = backToFront([solid], fromFront)
  expect(seen!.extent.right - seen!.extent.left).toBeCloseTo(60, 6)
  expect(seen!.edges).toEqual([])
})

test('a hull holds every point and turns left at each corner', () => {
  const point = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }))
  fc.assert(
    fc.property(fc.uniqueArray(point, { minLength: 3, maxLength: 30, selector: String }), (points) => {
      const ring = hull(points)
      if (ring.length < 3) return
      const left = (a: Point, b: Point, c: Point) =>
        (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
      ring.forEach((a, at) => {
        const b = ring[(at + 1) % ring.length]!
        expect(left(a, b, ring[(at + 2) % ring.length]!)).toBeGreaterThan(0)
        for (const c of points) expect(left(a, b, c)).toBeGreaterThanOrEqual(-1e-6)
      })
    }),
  )
})

describe('the sheet', () => {
  test('plan and elevation have one scale and lie inside the sheet, at 390 px and at 1180 px', () => {
    const pedestal = planned('pedestal')
    const dimensions = dimensionsOf(pedestal, typedOf('pedestal'))
    const extent = (view: typeof fromAbove) =>
      together(backToFront(solidsOf(pedestal.frame), view).map(({ extent: of }) => of))
    for (const width of [390, 800, 1180]) {
      const sheet = layOut(extent(fromAbove), extent(fromFront), dimensions, width, 460, () => 50)
      expect(sheet.plan.place.scale).toBe(sheet.front.place.scale)
      for (const { box } of [sheet.plan, sheet.front]) {
        expect(box.left).toBeGreaterThanOrEqual(0)
        expect(box.right).toBeLessThanOrEqual(width)
        expect(box.bottom).toBeLessThanOrEqual(sheet.height)
      }
    }
  })
  test('on a phone a row is as wide as its number and 10 px, from 44 to 68; on a desk each is 84', () => {
    const one = { view: 'front', side: 'right', from: 0, name: '' } as const
    const dimensions = [5, 30, 740].map((to) => ({ ...one, to }))
    const wide = { 5: 20, 30: 45, 740: 90 } as Record<number, number>
    const box = { left: 0, right: 600, bottom: 0, top: 600 }
    const rows = (width: number) =>
      layOut(box, box, dimensions, width, 460, ({ to }) => wide[to]!).front.rows.right
    expect(rows(390)).toEqual([44 / 2, 44 + 55 / 2, 44 + 55 + 68 / 2])
    expect(rows(1180)).toEqual([42, 126, 210])
  })
  test('a number wider than its line stands below it, but one that is asked for on it', () => {
    const one = { view: 'plan', side: 'bottom', from: 0, to: 300, name: '' } as const
    const box = { left: 0, right: 600, bottom: 0, top: 600 }
    const sheet = layOut(box, box, [one], 1180, 460, () => 50)
    const [left, right] = [one.from, one.to].map((x) => toScreen(sheet.plan.place, [x, 0])[0]) as [
      number,
      number,
    ]
    const [, onLine] = labelAt(one, [one], sheet, right - left - 1)
    expect(labelAt(one, [one], sheet, right - left + 1)).toEqual([(left + right) / 2, onLine + 18])
    const asked = { ...one, field: 'side' }
    expect(labelAt(asked, [asked], sheet, 900)[1]).toBe(onLine)
  })
  test('y grows upward in the shop and downward on the screen', () => {
    const place = { scale: 2, x: 10, y: 100 }
    expect(toScreen(place, [5, 20])).toEqual([20, 60])
    expect(
      pathOf(place, [
        [0, 0],
        [5, 0],
        [5, 20],
      ]),
    ).toBe('M10 100L20 100L20 60Z')
  })
})

test.each([
  ['rack', ['depth', 'height', 'highest', 'length', 'lowest']],
  // Feet and top bar are both 660 as a job starts: each leads to its own field all the same.
  ['trestle', ['barLength', 'feet', 'height', 'length', 'upper']],
  ['loose-top', ['length', 'width']],
  ['pedestal', ['footHeight', 'height', 'spread']],
])('of a new %s the dimensions that can be tapped are %j', (kind, fields) => {
  const shown = dimensionsOf(planned(kind), typedOf(kind)).flatMap(({ field }) => field ?? [])
  expect(shown).toEqual([...new Set(shown)])
  expect(shown.filter((field) => field !== 'size').sort()).toEqual(fields)
})

test('a height of a tier of 310 is drawn from the floor to 310 and leads to it; 900 deep is 450 each side of the middle', () => {
  const params = { lowest: 310, depth: 900 }
  const shown = dimensionsOf(planned('rack', params), typedOf('rack', params))
  expect(shown.find(({ field }) => field === 'lowest')).toMatchObject({
    view: 'front',
    side: 'right',
    from: 0,
    to: 310,
  })
  expect(shown.find(({ field }) => field === 'depth')).toMatchObject({
    view: 'plan',
    side: 'left',
    from: -450,
    to: 450,
  })
})
