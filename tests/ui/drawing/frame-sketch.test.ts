import { describe, expect, test } from 'vitest'
import { buildOf, builds } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { plan } from '../../../src/core/plan.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { bodyHigh, bodyWide, pageSizes } from '../../../src/paper/size.ts'
import { frameSketch } from '../../../src/ui/drawing/frame-sketch.ts'
import type { Item } from '../../../src/ui/drawing/sketch.ts'

function planned(kind: string, units: 'in' | 'mm', params: object = {}) {
  const start = newJob(buildOf(kind)!, units, 'j')
  const made = plan(
    { ...start, build: { kind, params: { ...start.build.params, ...params } } },
    startShop(units),
  )
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return made.value
}

const kinds = builds.map(({ kind }) => kind).filter((kind) => kind !== 'cut-list')
const pathsOf = (items: readonly Item[], kind: Item['kind']) =>
  items.flatMap((item) => (item.kind === kind && item.kind !== 'text' ? [item.d] : []))
const pointsOf = (d: string) =>
  [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const)

describe.each(Object.values(pageSizes))('the drawing of a frame on %j', (page) => {
  test.each(kinds)('%s fits on the page, every line of it', (kind) => {
    const room = { wide: bodyWide(page), high: bodyHigh(page) - 4 }
    for (const units of ['in', 'mm'] as const) {
      const { items, high } = frameSketch(planned(kind, units), startShop(units).reading, room)
      expect(high).toBeLessThanOrEqual(room.high + 2)
      for (const [x, y] of pathsOf(items, 'thick').flatMap(pointsOf)) {
        expect(x).toBeGreaterThanOrEqual(0)
        expect(x).toBeLessThanOrEqual(room.wide)
        expect(y).toBeLessThanOrEqual(high)
      }
    }
  })
})

test('a hexagon of 700 across flats is 808.3 wide and 700 deep to one scale, and says 700', () => {
  const room = { wide: 190, high: 240 }
  const { items } = frameSketch(planned('polygon-frame', 'mm', { size: 700 }), startShop('mm').reading, room)
  const scale = Number(
    items.flatMap((item) => (item.kind === 'text' ? (/1 : ([\d.]+)$/.exec(item.text)?.[1] ?? []) : []))[0],
  )
  const above = pathsOf(items, 'thick').slice(0, 6).flatMap(pointsOf)
  const span = (axis: 0 | 1) => {
    const values = above.map((at) => at[axis])
    return (Math.max(...values) - Math.min(...values)) * scale
  }
  // Across corners is 700 / cos 30° = 808.29; the scale is said to one decimal.
  expect(span(0) / 808.29).toBeCloseTo(1, 1)
  expect(span(1) / 700).toBeCloseTo(1, 1)
  expect(span(0) / span(1)).toBeCloseTo(1 / Math.cos(Math.PI / 6), 3)
  expect(items.some((item) => item.kind === 'text' && item.text === '700' && item.turned)).toBe(true)
})
