import type { LevelerRange } from './finish/leveling.ts'
import type { Frame, Warning } from './frame/frame.ts'
import type { Nest, NestProblem, Slope } from './nest.ts'
import type { Problem } from './result.ts'
import type { Section } from './section/section.ts'
import type { Deg, Mm } from './units.ts'

/** A length as a person reads it: `mm` is the rounded value, exactly what the text says. */
export interface Shown {
  readonly mm: Mm
  /** Digits and fraction without the unit: `6 7/8`, `404`, `174.6`. */
  readonly text: string
  readonly unit: 'in' | 'mm'
  /** How the exact length lies beside the rounded one; absent where the difference cannot be seen. */
  readonly lies?: 'strong' | 'scant'
  /** The difference, said to the nearest 1/64 in or 0.1 mm, when it is worth saying: `+1/64`. */
  readonly remainder?: string
}

export interface AngleShown {
  readonly deg: Deg
  /** `22½°`, `25.7°`. */
  readonly text: string
  /** For an angle that no saw scale shows: the rise in 12 in or in 100 mm, `5.779 in 12 in`. */
  readonly rise?: string
}

/** `ends leaning one way`: like parallel ones, but at two angles. */
export type Shape =
  | 'square'
  | 'ends opposed'
  | 'ends parallel'
  | 'ends leaning one way'
  | 'one end mitered'
  | 'ends crossed'

/** A long face of a piece as it lies in a stick: y across it, off the fence; z up. */
export type StickFace = '-z' | '+z' | '-y' | '+y'

/** All members of one geometry and section. Lengths unrounded; what is read stands under `printed`. */
export interface Part {
  readonly mark: string
  readonly name: string
  /** Per copy of the job. */
  readonly count: number
  readonly members: readonly string[]
  readonly section: Section
  readonly longPoint: Mm
  readonly shortPoint: Mm
  /** The four long edges of the sharp outer box: +y+z, −y+z, −y−z, +y−z. */
  readonly edges: readonly [Mm, Mm, Mm, Mm]
  readonly angleFromSquare: readonly [Deg, Deg]
  readonly shape: Shape
  /** Length on the center line. */
  readonly mid: Mm
  /**
   * Slopes of the two ends as the part lies in a stick, leading end first: greater dimension of the section across
   * (y), the miter of a square section in the table's plane, the long side of opposed ends on −y.
   */
  readonly slopes: readonly [Slope, Slope]
  /** Kilograms, one piece. */
  readonly mass: number
  /** Geometry key: two members with one key are the same part. */
  readonly key: string
  readonly printed: PartPrinted
  /**
   * Where the weld seam may lie, by member in the order of `members`: faces as the part lies in a stick. More than one
   * where a half turn brings the part onto itself; none where this member leaves it free. Absent: free for all.
   */
  readonly seam?: readonly (readonly StickFace[])[]
  /**
   * Round tube whose ends are worked to a saddle after the saw: lengths and ends are those of the sawn piece, which
   * reaches to the longest point of the saddle; `shortPoint` and `mass` are the finished piece's.
   */
  readonly saddles?: 'at one end' | 'at both ends'
  /** Name of the wish that this part shares a stick by, in each copy, with itself and with others of that name. */
  readonly oneStick?: string
}

export interface PartPrinted {
  /** The length that is set and cut: the long point, or the edge where the ends are parallel. */
  readonly primary: 'long point' | 'edge'
  readonly length: Shown
  readonly longPoint: Shown
  readonly shortPoint: Shown
  readonly angles: readonly [AngleShown, AngleShown]
  /** kg or lb, with its unit. */
  readonly mass: string
}

/** Where a member's footprint lies on another: both edges from one named end, never chained. */
export interface Landing {
  readonly on: string
  readonly by: string
  /** Face of the receiving member. */
  readonly face: '+y' | '-y' | '+z' | '-z'
  readonly from: 'A' | 'B'
  readonly near: Mm
  readonly far: Mm
  /** On a round receiver: where the middle of it lies, right-hand about the axis from local +y. */
  readonly around?: Deg
  readonly printed: { readonly near: Shown; readonly far: Shown }
}

export type SeamClass =
  | 'outside'
  | 'inside'
  | 'top'
  | 'bottom'
  | 'fillet'
  | 'flare'
  | 'square groove'
  | 'edge'

export interface Seam {
  readonly id: string
  readonly joint: string
  readonly class: SeamClass
  readonly length: Mm
  /** Throat or leg, mm: the thinner wall. */
  readonly size: Mm
  readonly from: readonly [number, number, number]
  readonly to: readonly [number, number, number]
  /** Unit, world: the side from which the torch reaches it. */
  readonly out: readonly [number, number, number]
  readonly place: { readonly member: string; readonly fromA: Mm }
}

// ------------------------------------------------------------------ the saw

export type Turn = 'over' | 'quarter+' | 'quarter-' | 'end' | 'flip'

/** What a person sets once: head, stop, side at the fence; valid for all its pieces. Signs of the saw's frame. */
export interface SetUp {
  readonly id: string
  readonly saw: string
  readonly section: Section
  readonly swing: Deg
  readonly tilt: Deg
  readonly roll: Deg
  readonly ramp: Deg
  /** Printed stop distance as mm; `exact` is the unrounded one. 0 with `trimOnly`. */
  readonly stop: Mm
  readonly exact: Mm
  readonly stopSide: 'left' | 'right'
  readonly hold: 'stop' | 'stick'
  readonly longSide: 'fence' | 'outward'
  /** Face on the table at the first cut listed; faces are named as the piece lay when it came off its stick. */
  readonly faceDown: StickFace
  /** Where the weld seam of the tube looks at the first cut listed (before a roll); absent: anywhere. */
  readonly seam?: 'up' | 'down' | 'fence' | 'outward'
  /** Product ids that this set-up makes, in order. */
  readonly pieces: readonly string[]
  /** So many equal tubes lie side by side in the vise at most of these cuts, and what that saves, minutes. Absent: one. */
  readonly gang?: { readonly count: number; readonly saves: number }
  readonly printed: {
    readonly stop: Shown
    readonly miter: AngleShown
    /** Which way, in words of this shop's saw. */
    readonly lean: string
    readonly longSide: string
    readonly turn: string
    /** Present where the blade is beveled, the piece rolled in a cradle or one end raised, the seam pinned. */
    readonly bevel?: AngleShown
    readonly bevelLean?: string
    readonly roll?: string
    readonly ramp?: string
    readonly seam?: string
  }
}

export type ProductKind = 'piece' | 'blank' | 'half' | 'rest' | 'drop' | 'scrap'

export interface Product {
  readonly id: string
  /** Stick or product that it is cut from. */
  readonly from: string
  readonly kind: ProductKind
  readonly mark?: string
  /** Geometry key of what this product is, named in the cut fact. */
  readonly key?: string
  readonly copy?: number
  readonly job?: string
  /** Piece ids that come out of it in the end. */
  readonly makes?: readonly string[]
  readonly length?: Mm
}

export type Step =
  | { readonly head: readonly [Deg, Deg] }
  | { readonly roll: Deg }
  | { readonly ramp: Deg }
  | { readonly turn: Turn }
  | { readonly trim: Mm }
  | { readonly stop: Mm; readonly exact: Mm }
  | { readonly cut: { readonly keep: string; readonly rest: string }; readonly setUp: string }
  | { readonly take: string }
  | { readonly unload: string }

/** One visit of one workpiece to a saw; the list of programs is the order of work. */
export interface Program {
  readonly id: string
  readonly saw: string
  readonly stopSide: 'left' | 'right'
  readonly hold: 'stop' | 'stick'
  readonly load: string
  readonly kerf: Mm
  /**
   * Id of a program before it, whose workpiece lies side by side with this one: the same strokes do both, step for step.
   * Each of them holds by itself too, one after the other. Absent: it lies alone, or others lie beside it.
   */
  readonly beside?: string
  readonly steps: readonly Step[]
}

/** A clean-up cut that is not square, or whose head stands otherwise than at the cut after it: words for the person. */
export interface Trim {
  /** Product of the cut that comes after it. */
  readonly before: string
  readonly swing: Deg
  readonly tilt: Deg
  readonly printed: {
    readonly miter: AngleShown
    readonly lean: string
    readonly bevel?: AngleShown
    readonly bevelLean?: string
  }
}

/** A piece that no saw of the shop finishes: the run goes on without it, and it is finished by hand. */
export interface Left {
  readonly piece: string
  readonly mark: string
  readonly code: string
  readonly why: string
  readonly ways: readonly string[]
}

export interface Run {
  readonly setUps: readonly SetUp[]
  readonly products: readonly Product[]
  readonly programs: readonly Program[]
  /** Absent: all clean-up cuts are square. */
  readonly trims?: readonly Trim[]
  /** What is left to the hand: its blank, or the bar that it is still part of, names it under `makes`. Absent: nothing. */
  readonly left?: readonly Left[]
  /** Minutes by the shop's figures, and what they are made of. */
  readonly work: {
    readonly heads: number
    readonly stops: number
    readonly loads: number
    readonly turns: number
    readonly cuts: number
    readonly minutes: number
  }
}

/**
 * One cut as the person at the saw meets it, in the order of work, with what must be done before and after it.
 * Derived from the run and from what was already cut; the screen and the paper both read this list.
 */
export interface BenchCut {
  readonly index: number
  readonly program: Program
  readonly setUp: SetUp
  /** What this cut makes: kept on the stop's side. */
  readonly product: Product
  /** Stick id (`S2`) when a whole stick is on the saw, else the product (blank or half) in hand. */
  readonly loaded: string
  readonly stick: string
  /** True where this cut is the first of its program: load the workpiece first. */
  readonly loadFirst: boolean
  /** Clean-up cut first, mm, kerf included. */
  readonly trimFirst?: Mm
  /** How that clean-up cut is set where it is not square, and what is turned before it. */
  readonly trim?: Trim['printed'] & { readonly turns: readonly Turn[] }
  /** Turnings since the cut before in this program, in order; with `trim`, since that. */
  readonly turns: readonly Turn[]
  /** Products that one stroke makes side by side, this one among them, in the order of the sticks. Absent: it alone. */
  readonly stroke?: readonly string[]
  /** The other half of the cut before: nothing is set or cut for it, only checked off. */
  readonly splits?: true
  /** What happens to the workpiece after the last cut of its program: drop id, or `scrap`. */
  readonly unload?: string
  /** True where head or stop differ from those of the cut before. */
  readonly newSetUp: boolean
  /** Fact that says it is cut. */
  readonly done?: string
  /** Fact of the miscut that spoiled its steel: this piece is cut no more in this plan. */
  readonly lost?: string
  /** Facts of the pieces (blank, half) that it is cut from; absent while those are not cut. */
  readonly parent?: string
}

/** A piece that is left to the hand, with where its steel lies and what is written down when it is made. */
export interface HandCut {
  readonly left: Left
  /** The finished piece; `from` is the blank, the bar or the stick that it is still part of. */
  readonly product: Product
  readonly stick: string
  /** Fact that says it is made. */
  readonly done?: string
  /** Fact of the miscut that spoiled its blank. */
  readonly lost?: string
  /** Fact of the blank that lies there for it. */
  readonly parent?: string
}

// ----------------------------------------------------------------- the weld

export interface Tack {
  readonly id: string
  readonly joint: string
  readonly seam: string
  readonly text: string
}

/** One line of the checklist: a tack, a check, a pass over a seam, turning the frame over, and what comes before and after. */
export interface WeldStep {
  readonly id: string
  readonly kind: 'clean' | 'drill' | 'fit' | 'tack' | 'check' | 'pass' | 'turn'
  readonly assembly: string
  /** Heading that it stands under, as `Base, arm to post`; absent: the name of its sub-assembly. */
  readonly stage?: string
  readonly joint?: string
  readonly seam?: string
  readonly text: string
  /** Why it stands here, in one line. */
  readonly why: string
  /** Of a fit: what goes under the pieces as they lie on the table, a line each. */
  readonly under?: readonly string[]
  /** What is turned over or lifted at this step, kg, plates that are welded on by then included. */
  readonly kg?: number
}

export interface WeldPlan {
  readonly seams: readonly Seam[]
  readonly tacks: readonly Tack[]
  /** Seam ids in order, with `turn` (assembly id after a colon: `turn:top`) between. */
  readonly order: readonly string[]
  /** Seam ids as they would follow when one goes round, under the same classes and turnings. */
  readonly round: readonly string[]
  readonly steps: readonly WeldStep[]
}

// ----------------------------------------------------------------- the plan

export interface BuiltSize {
  readonly name: string
  readonly asked: boolean
  readonly exact: Mm
  /** What the rounded lengths really give, once the welds have drawn in what is planned for them. */
  readonly built: Mm
  /** What it measures tacked up, before the welds draw it in; absent: `built`, since nothing is planned for them. */
  readonly tacked?: Mm
  readonly printed: { readonly exact: Shown; readonly built: Shown }
}

export interface PlatePart {
  readonly id: string
  readonly mark: string
  readonly name: string
  readonly mass: number
  readonly text: string
}

/** What a judge says: nothing wrong, or every fault in words. */
export interface Verdict {
  readonly faults: readonly string[]
}

export interface Plan {
  readonly job: string
  readonly name: string
  readonly quantity: number
  readonly frame: Frame
  /** The frame once the welds have drawn it in; absent: `frame`, since nothing is planned for them. */
  readonly finished?: Frame
  readonly parts: readonly Part[]
  readonly plates: readonly PlatePart[]
  readonly landings: readonly Landing[]
  readonly sizes: readonly BuiltSize[]
  /** Kilograms, one copy. */
  readonly mass: number
  /** What the nest must solve for this job alone: one problem per section. */
  readonly demand: readonly NestProblem[]
  readonly weld: WeldPlan
  /** What the leveling feet can do; absent where there are none. */
  readonly leveler?: LevelerRange
  readonly warnings: readonly Warning[]
  /** Present when a nest was given. */
  readonly nest?: Nest
  readonly run?: Run
  /** Parts as the run marks them, where the nest serves several jobs; absent: `parts`. */
  readonly cutParts?: readonly Part[]
  /** Why no saw of the shop can cut this nest, each reason with its ways out: there is then no run. */
  readonly hindered?: readonly Problem[]
  /** What the judges said of nest and run: both empty, or the plan is not shown. */
  readonly verdict?: { readonly nest: Verdict; readonly run: Verdict }
}
