// Hand-written documents for the tests of the saw: parts, nests and shops, by plain trigonometry of their own.

import type { Nest, NestPart, NestPiece, NestSection, NestStick } from '../../../src/core/nest.ts'
import type { Part, Run, Shape, Shown } from '../../../src/core/plan-shapes.ts'
import { withWays } from '../../../src/core/saw/left.ts'
import type { Section } from '../../../src/core/section/section.ts'
import type { Saw, Shop } from '../../../src/core/shop.ts'

export const tube = (width: number, height = width, cornerRadius = 4): Section => ({
  kind: width === height ? 'square-tube' : 'rect-tube',
  width,
  height,
  wall: 2,
  cornerRadius,
})

export const saw: Saw = {
  id: 'saw-1',
  name: 'Saw 1',
  blades: [{ id: 'b', name: 'Blade', kerf: 2.5 }],
  blade: 'b',
  stopSide: 'left',
  swings: 'head',
  readsAtSquare: 0,
  viseHolds: 'both',
  leastToHold: 60,
  cleanUp: 10,
  limits: { towardStop: 45, awayFromStop: 45, bevel: 0, longestStop: 3000 },
  minutes: { head: 2, stop: 1, load: 1.5, turn: 0.25, cut: 0.75 },
}

export const shop = (change: Partial<Shop> = {}, sawChange: Partial<Saw> = {}): Shop => ({
  id: 'shop',
  name: 'Test shop',
  reading: { kind: 'mm', step: 1 },
  says: 'stick and drop',
  mass: 'kg',
  currency: '€',
  hand: 'right',
  daylight: false,
  paper: 'A4',
  saws: [{ ...saw, ...sawChange }],
  sections: [],
  usualLengths: [6000],
  blankAllowance: 0,
  leastDrop: 300,
  longSide: 'fence',
  rootGap: 0,
  tacking: 'in a jig',
  ...change,
})

const shown = (mm: number): Shown => ({ mm, text: String(mm), unit: 'mm' })
const tan = (deg: number) => Math.tan((deg * Math.PI) / 180)

interface Wanted {
  readonly mark?: string
  readonly section?: Section
  /** Long point, or the edge where the ends are parallel; exact and as printed. */
  readonly length: number
  readonly printed?: number
  /** Degrees from square of the leading and the trailing end; both positive: opposed; opposite signs: parallel. */
  readonly ends: readonly [number, number]
  /** The dimension of the section that each end's miter crosses. */
  readonly across?: readonly ['width' | 'height', 'width' | 'height']
}

/** A part: long side of an opposed pair on −y (or −z), so leading slope −tan, trailing slope +tan. */
export function part(wanted: Wanted): Part {
  const { mark = 'A', section = tube(40), length, ends, across = ['width', 'width'] } = wanted
  const printed = wanted.printed ?? Math.round(length)
  const slope = (value: number, side: 'width' | 'height') =>
    side === 'width' ? { p: value, q: 0 } : { p: 0, q: value }
  const lead = slope(-tan(ends[0]), across[0])
  const trail = slope(tan(ends[1]), across[1])
  const mitered = ends.filter((deg) => deg !== 0).length
  const crossed = mitered === 2 && across[0] !== across[1]
  const parallel = mitered === 2 && !crossed && ends[0] * ends[1] < 0
  const shape: Shape =
    mitered === 0
      ? 'square'
      : mitered === 1
        ? 'one end mitered'
        : crossed
          ? 'ends crossed'
          : parallel
            ? 'ends parallel'
            : 'ends opposed'
  const w = section.width / 2
  const h = section.height / 2
  const tips = (Math.abs(lead.p) + Math.abs(trail.p)) * w + (Math.abs(lead.q) + Math.abs(trail.q)) * h
  const mid = parallel && ends[0] === -ends[1] ? length : length - tips
  const edge = (y: number, z: number) => mid + (lead.p - trail.p) * y + (lead.q - trail.q) * z
  const edges = [edge(w, h), edge(-w, h), edge(-w, -h), edge(w, -h)] as const
  const primary = parallel && ends[0] === -ends[1] ? 'edge' : 'long point'
  const angles = ends.map(Math.abs) as [number, number]
  return {
    mark,
    name: mark,
    count: 1,
    members: [mark],
    section,
    longPoint: mid + tips,
    shortPoint: Math.min(...edges),
    edges,
    angleFromSquare: angles,
    shape,
    mid,
    slopes: [lead, trail],
    mass: 1,
    key: `${mark} ${section.width} ${section.height} ${length} ${ends.join(' ')} ${across.join(' ')}`,
    printed: {
      primary,
      length: shown(printed),
      longPoint: shown(primary === 'edge' ? printed + tips : printed),
      shortPoint: shown(Math.min(...edges)),
      angles: [
        { deg: angles[0], text: `${angles[0]}°` },
        { deg: angles[1], text: `${angles[1]}°` },
      ],
      mass: '1 kg',
    },
  }
}

/** Tip to tip of the piece with its printed length: the shortest square blank. */
export const printedExtent = ({ longPoint, edges, printed }: Part): number =>
  printed.primary === 'edge' ? printed.length.mm + longPoint - edges[0] : printed.length.mm

interface Cutting {
  readonly section?: Section
  /** Per stick the marks in order; each becomes one piece. */
  readonly sticks: readonly (readonly string[])[]
  readonly length?: number
  readonly kerf?: number
  readonly trim?: number
  readonly grip?: number
  readonly allowance?: number
  /** Blanks are rounded up to whole steps of this; absent: of 1/1600 mm. */
  readonly step?: number
  readonly job?: string
  readonly first?: Readonly<Record<string, number>>
  readonly idFrom?: number
}

/** A nest of square blanks from mill sticks: front trim, then pieces with a kerf between, tail as it falls. */
export function nestSection(parts: readonly Part[], cutting: Cutting): NestSection {
  const { section = parts[0]!.section, length = 6000, kerf = 2.5, trim = 10, grip = 60 } = cutting
  const { allowance = 0, step = 1 / 1600, job = 'job', first = {}, idFrom = 1 } = cutting
  const count: Record<string, number> = {}
  const midOf = (of: Part) => {
    const mitered = of.angleFromSquare.filter((deg) => deg > 0).length
    return Math.ceil((printedExtent(of) + (allowance * mitered) / 2) / step - 6e-7 / step) * step
  }
  const sticks = cutting.sticks.map((marks, at): NestStick => {
    let x = length - trim
    const pieces = marks.map((mark): NestPiece => {
      const of = parts.find((one) => one.mark === mark)!
      const number = (first[mark] ?? 1) + (count[mark] ?? 0)
      count[mark] = (count[mark] ?? 0) + 1
      const lead = x
      x -= midOf(of)
      const trail = x
      x -= kerf
      return {
        piece: `${mark}${number}`,
        mark,
        key: of.key,
        job,
        copy: 1,
        turn: 'none',
        ends: [
          { x: lead, p: 0, q: 0 },
          { x: trail, p: 0, q: 0 },
        ],
        ...(of.shape === 'square' ? {} : { blank: `${mark}${number}.b` }),
      }
    })
    const ends = ['mill', 'mill'] as const
    return {
      id: `S${idFrom + at}`,
      from: 'buy',
      length,
      price: length,
      ends,
      way: 'square first',
      pieces,
      drop: Math.max(0, x),
    }
  })
  const demand = parts.map((of): NestPart => {
    const square = { p: 0, q: 0 }
    return {
      job,
      mark: of.mark,
      key: of.key,
      mid: midOf(of),
      ends: [square, square],
      turns: ['none', 'over', 'end', 'flip'],
      count: count[of.mark] ?? 0,
      perCopy: count[of.mark] ?? 1,
      ...(first[of.mark] ? { first: first[of.mark]! } : {}),
      ...(of.shape === 'square' ? { finished: true as const } : {}),
    }
  })
  const cost = sticks.length * length
  return {
    section,
    kerf,
    trim,
    grip,
    way: 'square first',
    demand,
    stock: [{ length, ends: ['mill', 'mill'] }],
    sticks,
    cost,
    bound: 0,
    proved: false,
  }
}

export const nest = (sections: readonly NestSection[], id = 'nest-1', jobs = ['job']): Nest => ({
  version: 1,
  id,
  solver: 'hand',
  jobs,
  sections,
})

/** Why pieces are left to the hand, one text for each piece, as a warning would say it. */
export const leftTexts = ({ left = [] }: Run): readonly string[] =>
  left.map(({ why, ways }) => withWays(why, ways))
