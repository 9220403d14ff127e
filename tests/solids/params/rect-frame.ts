import type { Params, SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'

const tenths = (mm: number) => Math.round(mm * 10) / 10

const tube = (roll: Dice): SectionGiven =>
  roll() < 0.6
    ? { kind: 'square-tube', width: roll.pick([40, 50, 50.8]), wall: 3 }
    : { kind: 'rect-tube', width: roll.pick([60, 80]), height: roll.pick([40, 50]), wall: 3 }

const bar = (roll: Dice): SectionGiven =>
  roll.pick<SectionGiven>([
    { kind: 'square-tube', width: 25.4, wall: 2 },
    { kind: 'square-tube', width: 40, wall: 3 },
    { kind: 'rect-tube', width: 40, height: 20, wall: 2 },
    { kind: 'flat-bar', width: 40, height: 6 },
    { kind: 'square-bar', width: 20 },
  ])

const thin = (roll: Dice): SectionGiven =>
  roll.pick<SectionGiven>([
    { kind: 'square-bar', width: 12 },
    { kind: 'flat-bar', width: 20, height: 5 },
    { kind: 'round-bar', width: 12 },
    { kind: 'round-tube', width: 16, wall: 2 },
    { kind: 'square-tube', width: 20, wall: 2 },
  ])

/** Middles at least 60 apart, well inside a length, in no order. */
const middles = (roll: Dice, length: number) => {
  const found: number[] = []
  for (let tries = roll.whole(1, 6); tries > 0; tries--) {
    const at = tenths(roll.between(130, length - 130))
    if (found.every((other) => Math.abs(other - at) >= 60)) found.push(at)
  }
  return found.map((at) => ({ at }))
}

/** Random parameters of a rectangular frame; now and then bars that have no room. */
export function randomParams(roll: Dice): Params {
  const length = tenths(roll.between(500, 1500))
  const width = tenths(roll.between(400, 1000))
  const barRun = roll.pick(['across', 'along'])
  const infillRun = roll.pick(['across', 'along'])
  const spaced = (run: string) => (run === 'across' ? length : width)
  const bars = roll.pick(['none', 'evenly', 'evenly', 'centers'])
  const infill = roll.pick(['none', 'evenly', 'evenly', 'centers'])
  const top = roll.pick(['none', 'plate', 'top sheet'])
  const topEdge = roll.pick(['flush', 'inset', 'overhang'])
  return {
    sizeIs: roll.pick(['outside', 'clear inside']),
    length,
    width,
    section: tube(roll),
    stands: roll.pick(['flat', 'on edge']),
    corners: roll.pick(['mitered', 'side rails through', 'end rails through']),
    bars,
    barCount: roll.whole(1, 4),
    barCenters: middles(roll, spaced(barRun)),
    barRun,
    barSection: bar(roll),
    barStands: roll.pick(['flat', 'on edge']),
    infill,
    infillCount: roll.whole(1, 4),
    infillCenters: middles(roll, spaced(infillRun)),
    infillRun,
    infillSection: thin(roll),
    infillStands: roll.pick(['flat', 'on edge']),
    barsLie: roll.pick(['on top', 'in the middle', 'underneath']),
    top,
    ...(top === 'none' ? {} : { topThickness: roll.pick([2, 5]), topEdge }),
    ...(top === 'none' || topEdge === 'flush' ? {} : { topEdgeBy: roll.pick([8, 12.7]) }),
    ...(top === 'none' ? {} : { topCut: roll.pick(['last', 'by numbers']) }),
  }
}
