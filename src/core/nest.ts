import type { Section } from './section/section.ts'
import type { Mm } from './units.ts'

/** How x changes along the cut: (dx/dy, dx/dz) in the stick's frame. (0, 0) is square. */
export interface Slope {
  readonly p: number
  readonly q: number
}

/** The plane x + p·y + q·z of an end, in the stick's frame, section centered. */
export interface EndPlane extends Slope {
  readonly x: Mm
}

/** How the end of a stick came to be: from the mill, cut square, or cut at these slopes. */
export type StickEnd = 'mill' | 'cut' | Slope

/** Proper turnings of a piece in the stick, x along the stick: none, over (about x), end (about z), flip (about y); and quarters. */
export type Turning = 'none' | 'over' | 'end' | 'flip'

export type CuttingWay = 'square first' | 'from the stick' | 'paired'

/** One of the two finished pieces that a paired blank is split into. */
export interface PairedPiece {
  readonly piece: string
  readonly mark: string
  readonly key: string
  readonly copy: number
  /** Pieces of this mark per copy, and the blank that it would need by itself, mm: for a nest of what is left. */
  readonly perCopy: number
  readonly mid: Mm
}

export type Pair = readonly [PairedPiece, PairedPiece]

/** One kind of piece that a nest must give: a part of a job, with how often. */
export interface NestPart {
  readonly job: string
  readonly mark: string
  /** Geometry key of the finished piece. */
  readonly key: string
  /** Center length of what leaves the stick (blank in square first), printed, mm. */
  readonly mid: Mm
  /** Slopes of the leading and the trailing end of what leaves the stick. */
  readonly ends: readonly [Slope, Slope]
  readonly turns: readonly Turning[]
  /** For all copies together. */
  readonly count: number
  /** Copies, and pieces per copy: piece k of a mark belongs to copy 1 + floor((k − 1) / perCopy). */
  readonly perCopy: number
  /** Number of the first piece; absent: 1. A nest of what is left goes on counting. */
  readonly first?: number
  /** All pieces of all parts that bear this name come from one stick, for grain of color or straightness. */
  readonly same?: string
  /** What leaves the stick is the finished piece: it then needs no blank. */
  readonly finished?: true
  /** Blanks that are split in two, one entry for each of `count`; mark and key are then those of the pair. */
  readonly makes?: readonly Pair[]
}

/**
 * What each name of `same` keeps on one stick, as keys with their counts: two demands that keep the same pieces together
 * are alike, whatever they call it.
 */
export function sharing(parts: readonly NestPart[]): ReadonlyMap<string, string> {
  const names = [...new Set(parts.flatMap(({ same }) => same ?? []))]
  const kept = (name: string) =>
    parts.flatMap(({ same, key, count }) => (same === name ? [`${count} × ${key}`] : [])).sort()
  return new Map(names.map((name) => [name, kept(name).join(' with ')]))
}

export interface StockLength {
  readonly length: Mm
  /** Absent everywhere: cost is the length bought. Whole cents. */
  readonly price?: number
  /** Absent: as many as wanted. */
  readonly count?: number
  readonly ends: readonly [StickEnd, StickEnd]
  /** A piece on the rack; absent for stock to be bought. */
  readonly rack?: string
  /**
   * One of the two halves that a stick of this length is delivered as. `price` is that of the stick and its cut, paid for
   * every two of them begun; `count` counts halves.
   */
  readonly halfOf?: Mm
}

/** All that a solver needs for one section. Plain data: it goes to the worker as it is. */
export interface NestProblem {
  readonly section: Section
  readonly way: CuttingWay
  readonly kerf: Mm
  /** Clean-up cut of a mill end, its own kerf included. */
  readonly trim: Mm
  /** Least to hold. */
  readonly grip: Mm
  readonly parts: readonly NestPart[]
  readonly stock: readonly StockLength[]
  /** Least drop worth keeping. */
  readonly keep: Mm
}

export interface NestPiece {
  /** `A5`: mark and number, unique in its job. */
  readonly piece: string
  readonly mark: string
  readonly key: string
  readonly job: string
  /** 1 … quantity. */
  readonly copy: number
  readonly turn: Turning
  /** The leading end (greater x) first. In square first these are the blank's. */
  readonly ends: readonly [EndPlane, EndPlane]
  /** Id of the blank that is cut from the stick, when the piece is made from one. */
  readonly blank?: string
  /** What a paired blank is split into, the piece at the stop first; piece, mark, key and copy above are the first's. */
  readonly makes?: Pair
}

/** Every finished piece that comes out of one entry of a stick. */
export const piecesIn = (
  entry: NestPiece,
): readonly Pick<NestPiece, 'piece' | 'mark' | 'key' | 'job' | 'copy'>[] =>
  entry.makes?.map(({ piece, mark, key, copy }) => ({ piece, mark, key, copy, job: entry.job })) ?? [entry]

export interface NestStick {
  /** `S1`, unique across the whole nest. */
  readonly id: string
  readonly from: 'buy' | 'rack'
  readonly rack?: string
  readonly length: Mm
  /**
   * Cents; where nothing is priced, the length bought, mm; 0 from the rack unless it has a price. Of two halves the first
   * bears the price of the stick and its cut, and the other comes with it for 0.
   */
  readonly price: number
  /** Length of the stick that this is a half of. */
  readonly halfOf?: Mm
  /** Leading end (x = length) first, then the tail (x = 0). */
  readonly ends: readonly [StickEnd, StickEnd]
  readonly way: CuttingWay
  /** From the leading end on. */
  readonly pieces: readonly NestPiece[]
  /** What is left, on the short side, mm, after the last cut. */
  readonly drop: Mm
}

/** The nest of one section. */
export interface NestSection {
  readonly section: Section
  readonly kerf: Mm
  readonly trim: Mm
  readonly grip: Mm
  readonly way: CuttingWay
  readonly demand: readonly NestPart[]
  readonly stock: readonly StockLength[]
  readonly sticks: readonly NestStick[]
  /** In cents, or in mm where nothing has a price. */
  readonly cost: number
  /** No nest costs less than this. */
  readonly bound: number
  /** True only with a certificate that code outside the solver has checked. */
  readonly proved: boolean
}

/** Immutable once accepted; id = hash of all the rest. */
export interface Nest {
  readonly version: 1
  readonly id: string
  readonly solver: string
  readonly parent?: string
  readonly jobs: readonly string[]
  readonly sections: readonly NestSection[]
}
