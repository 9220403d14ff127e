import type { Frame, Plate } from '../frame/frame.ts'
import { area } from '../geometry/polygon.ts'
import type { PlatePart } from '../plan-shapes.ts'
import { say } from '../reading/show.ts'
import { steelDensity } from '../section/mass.ts'
import type { Shop } from '../shop.ts'
import { tapOf } from '../thread.ts'

const outline = (plate: Plate): string =>
  plate.polygon.map(([x, y]) => `${x.toFixed(3)},${y.toFixed(3)}`).join(' ')

/** Kilograms of a plate, holes taken off. */
export function plateMass(plate: Plate): number {
  const holes = plate.holes.reduce((sum, [, , diameter]) => sum + (Math.PI * diameter ** 2) / 4, 0)
  return ((Math.abs(area(plate.polygon)) - holes) * plate.thickness * steelDensity) / 1e9
}

/** Plates with their marks P1, P2 …; equal ones share a mark. */
export function platesOf(frame: Frame, shop: Shop): PlatePart[] {
  const marks = new Map<string, string>()
  return frame.plates.map((plate) => {
    const key = `${plate.thickness.toFixed(4)} ${outline(plate)} ${plate.holes.map((hole) => hole.map((at) => at.toFixed(3))).join(' ')}`
    const mark = marks.get(key) ?? `P${marks.size + 1}`
    marks.set(key, mark)
    return {
      id: plate.id,
      mark,
      name: plate.name.replace(/\s*\d+$/, ''),
      mass: plateMass(plate),
      text: text(plate, shop),
    }
  })
}

function text(plate: Plate, shop: Shop): string {
  const span = (axis: 0 | 1) => {
    const along = plate.polygon.map((point) => point[axis])
    return say(Math.max(...along) - Math.min(...along), shop.reading)
  }
  const size = `${span(0)} × ${span(1)} over all, ${plate.polygon.length} sides, ${say(plate.thickness, shop.reading)} thick`
  if (!plate.thread || plate.holes.length === 0) return size
  const { drillName } = tapOf(plate.thread)
  return `${size}; ${plate.holes.length === 1 ? 'one hole' : `${plate.holes.length} holes`} drilled ${drillName}, tapped ${plate.thread}`
}
