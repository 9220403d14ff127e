import { roundCorners } from '../frame/cap.ts'
import type { Frame, Plate, Slot } from '../frame/frame.ts'
import { area } from '../geometry/polygon.ts'
import type { PlatePart } from '../plan-shapes.ts'
import { slotArea, slotEnds } from '../plates/slot.ts'
import { say } from '../reading/show.ts'
import { steelDensity } from '../section/mass.ts'
import type { Shop } from '../shop.ts'
import { tapOf } from '../thread.ts'
import { type Mm, stepsPerMm } from '../units.ts'

/** Corners up to which a plate is turned to find its equal; a round one is drawn from its long way on anyhow. */
const turnedCorners = 16

/** As a number for identity; half steps are moved aside as for members. */
const step = (mm: Mm): number => Math.floor(mm * stepsPerMm + 0.501)

/** Outline and holes, in whole steps, seen along an edge from its corner. */
function seenFrom(
  { polygon, holes, slots = [] }: Pick<Plate, 'polygon' | 'holes' | 'slots'>,
  corner: number,
): number[] {
  const n = polygon.length
  const [x, y] = polygon[corner]!
  const [u, v] = polygon[(corner + 1) % n]!
  const long = Math.hypot(u - x, v - y)
  const [cosine, sine] = [(u - x) / long, (v - y) / long]
  const to = (at: Mm, up: Mm) => [
    step((at - x) * cosine + (up - y) * sine),
    step((up - y) * cosine - (at - x) * sine),
  ]
  const drilled = holes.map(([at, up, diameter]) => [...to(at, up), step(diameter)])
  // A slot is known by the middles of its two round ends, whichever stands first.
  const slotted = slots.map((slot) => {
    const ends = slotEnds(slot).map(([x, y]) => to(x, y))
    return [...ends.sort(compare).flat(), step(slot.width)]
  })
  return [
    ...polygon.flatMap((_, k) => to(...polygon[(corner + k) % n]!)),
    ...drilled.sort(compare).flat(),
    ...slotted.sort(compare).flat(),
  ]
}

function compare(one: readonly number[], two: readonly number[]): number {
  const at = one.findIndex((value, place) => value !== two[place])
  return at < 0 ? 0 : one[at]! - (two[at] ?? 0)
}

/** The other side up. */
const turnedOver = ({ polygon, holes, slots = [] }: Plate): Pick<Plate, 'polygon' | 'holes' | 'slots'> => ({
  polygon: polygon.map(([x, y]) => [x, -y] as const).reverse(),
  holes: holes.map(([x, y, diameter]) => [x, -y, diameter] as const),
  slots: slots.map((slot) => ({ ...slot, y: -slot.y, angle: -slot.angle })),
})

/** Two plates with one key are cut alike: a plate may be turned any way, and over. */
function plateKey(plate: Plate): string {
  const corners = plate.polygon.length > turnedCorners ? [0] : [...plate.polygon.keys()]
  const all = [plate, turnedOver(plate)].flatMap((side) => corners.map((corner) => seenFrom(side, corner)))
  const least = all.reduce((best, next) => (compare(next, best) < 0 ? next : best))
  return `${step(plate.thickness)} ${plate.polygon.length} ${plate.thread ?? ''} ${least.join(' ')}`
}

/** Kilograms of a plate, holes taken off. */
export function plateMass(plate: Plate): number {
  const holes = plate.holes.reduce((sum, [, , diameter]) => sum + (Math.PI * diameter ** 2) / 4, 0)
  const slots = (plate.slots ?? []).reduce((sum, slot) => sum + slotArea(slot), 0)
  return ((Math.abs(area(plate.polygon)) - holes - slots) * plate.thickness * steelDensity) / 1e9
}

/** Plates with their marks P1, P2 …; equal ones share a mark. */
export function platesOf(frame: Frame, shop: Shop): PlatePart[] {
  const marks = new Map<string, string>()
  return frame.plates.map((plate) => {
    const key = plateKey(plate)
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
  const sides = plate.polygon.length
  const shape = sides === roundCorners ? 'round' : `${sides} sides`
  const size = `${span(0)} × ${span(1)} over all, ${shape}, ${say(plate.thickness, shop.reading)} thick`
  const slots = plate.slots ?? []
  if (slots.length > 0) {
    const [{ width, length }] = slots as [Slot]
    const slot = `${say(width, shop.reading)} wide, ${say(length, shop.reading)} over all`
    return `${size}; ${slots.length === 1 ? 'one slot' : `${slots.length} slots`} ${slot}`
  }
  if (!plate.thread || plate.holes.length === 0) return size
  const { drillName } = tapOf(plate.thread)
  return `${size}; ${plate.holes.length === 1 ? 'one hole' : `${plate.holes.length} holes`} drilled ${drillName}, tapped ${plate.thread}`
}
