// Documents for the judges' tests, written out by hand; and ways to damage a copy of one.
import type { NestPart, NestProblem, NestSection, Slope } from '../../../src/core/nest.ts'
import type { AngleShown, Part, SetUp, Shown } from '../../../src/core/plan-shapes.ts'
import type { Section } from '../../../src/core/section/section.ts'
import type { Saw, Shop } from '../../../src/core/shop.ts'

/** The same shape, open to damage. */
export type Open<T> = T extends object ? { -readonly [K in keyof T]: Open<T[K]> } : T

/** A copy with something changed. */
export function damaged<T>(whole: T, damage: (copy: Open<T>) => void): T {
  const copy = structuredClone(whole)
  damage(copy as Open<T>)
  return copy
}

export const tube40: Section = { kind: 'square-tube', width: 40, height: 40, wall: 2, cornerRadius: 4 }
export const square: Slope = { p: 0, q: 0 }
export const tan30 = Math.tan(Math.PI / 6)

export const mmShown = (mm: number): Shown => ({ mm, text: String(mm), unit: 'mm' })
export const degShown = (deg: number): AngleShown => ({ deg, text: `${+deg.toFixed(1)}°` })

export const saw: Saw = {
  id: 'saw',
  name: 'cold saw',
  blades: [{ id: 'b', name: 'blade', kerf: 2.5 }],
  blade: 'b',
  stopSide: 'left',
  swings: 'head',
  readsAtSquare: 0,
  viseHolds: 'both',
  leastToHold: 60,
  cleanUp: 10,
  limits: { towardStop: 45, awayFromStop: 60, bevel: 0, longestStop: 1500 },
  minutes: { head: 1, stop: 1, load: 1, turn: 0.2, cut: 1 },
}

export const shop: Shop = {
  id: 'shop',
  name: 'shop',
  reading: { kind: 'mm', step: 1 },
  says: 'stick and drop',
  mass: 'kg',
  currency: 'EUR',
  hand: 'right',
  daylight: false,
  paper: 'A4',
  saws: [saw],
  sections: [],
  usualLengths: [6000],
  blankAllowance: 1.5875,
  leastDrop: 300,
  longSide: 'fence',
  rootGap: 0,
  tacking: 'in a jig',
}

/** A part by its mid-length and slopes as it lies in a stick; printed to the whole millimeter. */
export function partOf(
  mark: string,
  section: Section,
  mid: number,
  slopes: readonly [Slope, Slope],
  count = 1,
): Part {
  const [y, z] = [section.width / 2, section.height / 2]
  const at = (side: number, face: number) =>
    mid + (slopes[0].p - slopes[1].p) * side * y + (slopes[0].q - slopes[1].q) * face * z
  const edges = [at(1, 1), at(-1, 1), at(-1, -1), at(1, -1)] as const
  const spread = ({ p, q }: Slope) => Math.abs(p) * y + Math.abs(q) * z
  const longPoint = mid + spread(slopes[0]) + spread(slopes[1])
  const parallel = slopes[0].p !== 0 && slopes[0].p === slopes[1].p
  const primary = parallel ? 'edge' : 'long point'
  const angle = ({ p, q }: Slope) => (Math.atan(Math.hypot(p, q)) * 180) / Math.PI
  return {
    mark,
    name: 'side',
    count,
    members: [],
    section,
    longPoint,
    shortPoint: Math.min(...edges),
    edges,
    angleFromSquare: [angle(slopes[1]), angle(slopes[0])],
    shape: parallel ? 'ends parallel' : 'ends opposed',
    mid,
    slopes,
    mass: 1,
    key: `key ${mark}`,
    printed: {
      primary,
      length: mmShown(Math.round(parallel ? edges[0] : longPoint)),
      longPoint: mmShown(Math.round(longPoint)),
      shortPoint: mmShown(Math.round(Math.min(...edges))),
      angles: [degShown(angle(slopes[1])), degShown(angle(slopes[0]))],
      mass: '1 kg',
    },
  }
}

export const blankOf = (part: Part, mid: number, count: number): NestPart => ({
  job: 'job',
  mark: part.mark,
  key: part.key,
  mid,
  ends: [square, square],
  turns: ['none', 'over', 'end', 'flip'],
  count,
  perCopy: count,
})

/** What stays the same in all nests here: a 2.5 blade, 10 of clean-up, 60 to hold, sticks of 6000 by length. */
export const figures = {
  kerf: 2.5,
  trim: 10,
  grip: 60,
  way: 'square first',
  stock: [{ length: 6000, ends: ['mill', 'mill'] }],
} as const satisfies Partial<NestSection>

export const problemOf = ({ section, way, kerf, trim, grip, demand, stock }: NestSection): NestProblem => ({
  section,
  way,
  kerf,
  trim,
  grip,
  parts: demand,
  stock,
  keep: 300,
})

/** A set-up record; `exact` is the unrounded stop, printed to the whole millimeter. */
export function setUp(
  id: string,
  exact: number,
  pieces: readonly string[],
  more: Partial<SetUp> = {},
): SetUp {
  const stop = more.stop ?? Math.round(exact)
  return {
    id,
    saw: 'saw',
    section: tube40,
    swing: 0,
    tilt: 0,
    roll: 0,
    ramp: 0,
    stop,
    exact,
    stopSide: 'left',
    hold: 'stick',
    longSide: 'fence',
    faceDown: '-z',
    pieces,
    printed: {
      stop: mmShown(stop),
      miter: degShown(Math.abs(more.swing ?? 0)),
      lean: '',
      longSide: '',
      turn: '',
    },
    ...more,
  }
}

export const work = { heads: 0, stops: 0, loads: 0, turns: 0, cuts: 0, minutes: 0 }
