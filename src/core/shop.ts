import type { General } from './fitup/general.ts'
import type { Section } from './section/section.ts'
import type { Deg, Mm } from './units.ts'

/** How lengths are read and shown. */
export type Reading =
  | { readonly kind: 'inch-fraction'; readonly denominator: 8 | 16 | 32 | 64 }
  | { readonly kind: 'inch-decimal'; readonly places: 2 | 3 }
  | { readonly kind: 'mm'; readonly step: 1 | 0.5 | 0.1 }

export interface Blade {
  readonly id: string
  readonly name: string
  readonly kerf: Mm
}

export interface Saw {
  readonly id: string
  readonly name: string
  readonly blades: readonly Blade[]
  /** Id of the blade that is on. */
  readonly blade: string
  /** Side of the blade where the stop stands, facing the fence. */
  readonly stopSide: 'left' | 'right'
  readonly swings: 'head' | 'vise'
  /** What the scale reads at a square cut. */
  readonly readsAtSquare: 0 | 90
  /** What the vise holds: the stick's side (away from the stop), the stop's side, or both. */
  readonly viseHolds: 'stick' | 'stop' | 'both'
  readonly leastToHold: Mm
  /** Whether compound cuts may be made from a cradle that rolls the stick; absent: yes. */
  readonly cradle?: boolean
  /** Whether blanks may be cut with one end raised on a wedge; absent: yes. */
  readonly ramp?: boolean
  /** Clean-up cut of a mill end, its own kerf included; 0 for none. */
  readonly cleanUp: Mm
  readonly limits: {
    /** Greatest miter with the far end of the blade leaning toward the stop (negative swing). */
    readonly towardStop: Deg
    /** Greatest miter the other way (positive swing). */
    readonly awayFromStop: Deg
    /** Greatest bevel; 0 for a saw that does not tilt. */
    readonly bevel: Deg
    readonly longestStop: Mm
  }
  /** How many equal tubes the vise takes side by side for one square cut; absent: 1. */
  readonly gang?: number
  /** Minutes for each of these. */
  readonly minutes: {
    readonly head: number
    readonly stop: number
    readonly load: number
    readonly turn: number
    readonly cut: number
  }
}

/** A price by length or mass; cents may have a fraction here, since they are rounded once, per stick. */
export interface Rate {
  readonly per: 'foot' | 'meter' | 'pound' | 'kilogram'
  readonly cents: number
}

/** A section that the shop carries, matched to a job's by its key. */
export interface CarriedSection {
  readonly section: Section
  readonly name: string
  /** Width and height of this delivery, when measured. */
  readonly measured?: { readonly width: Mm; readonly height: Mm }
  /** Id of the saw that usually cuts it; absent: the shop's first. */
  readonly saw?: string
  /** Price of every length that has none of its own. */
  readonly rate?: Rate
  /** Sticks delivered cut in half: `wanted` or only known of; whole cents for a cut, and how much length it takes. */
  readonly inHalves?: { readonly wanted: boolean; readonly cents: number; readonly takes: Mm }
  readonly stock: readonly { readonly length: Mm; readonly price?: number; readonly count?: number }[]
}

/** One line each at a set-up, which a shop may not want. */
export type Habit = 'deburr' | 'chips' | 'back off' | 'mark'

/** Sheet or plate that the shop buys. */
export interface CarriedSheet {
  readonly thickness: Mm
  /** The greater side. */
  readonly length: Mm
  readonly width: Mm
  /** Of one, in whole cents. */
  readonly price?: number
  /** Only so many; absent: as many as wanted. */
  readonly count?: number
}

/** One record of the settings book: what the machine was set to, and how it went. */
export interface WeldSetting {
  readonly process: string
  readonly wall: Mm
  /** Class of the seam, as `fillet`. */
  readonly joint: string
  readonly wire: string
  readonly gas: string
  readonly volts: number
  /** Wire and hand, in/min, as machines and charts say them. */
  readonly wireSpeed: number
  readonly travel?: number
  readonly result: 'good' | 'fair' | 'bad'
  readonly note?: string
}

/** The welding table. */
export interface Table {
  /** Along the front edge. */
  readonly length: Mm
  /** Off the front edge. */
  readonly width: Mm
  /** Frames are laid so far from the left edge and from the front one: room for blocks and clamps. */
  readonly clear: Mm
  /** Width of its slots; absent: a plain top. */
  readonly slot?: Mm
}

/** What is true here across jobs. The rack is not here: it follows from facts. */
export interface Shop {
  readonly id: string
  readonly name: string
  readonly reading: Reading
  /** Words of the trade here. */
  readonly says: 'stick and drop' | 'length and offcut'
  readonly mass: 'lb' | 'kg'
  readonly currency: string
  /** Side of the main button. */
  readonly hand: 'left' | 'right'
  readonly daylight: boolean
  readonly paper: 'Letter' | 'A4'
  /** One at least. */
  readonly saws: readonly Saw[]
  readonly sections: readonly CarriedSection[]
  /** Sheet and plate that are carried; absent: none. */
  readonly sheets?: readonly CarriedSheet[]
  /** Stock lengths of a section that is not carried here. */
  readonly usualLengths: readonly Mm[]
  /** Allowance per blank so that the blade does not feather the corner; 0 for none. */
  readonly blankAllowance: Mm
  /** Drops shorter than this are scrap. */
  readonly leastDrop: Mm
  /** Which side of the piece lies at the fence in pass 2. */
  readonly longSide: 'fence' | 'outward'
  /** Root gap at every joint. */
  readonly rootGap: Mm
  /** How parts are tacked. */
  readonly tacking: 'in a jig' | 'piece by piece' | 'half rings'
  /** In which sequence a frame is welded; absent: upright first, then tops, turn, bottoms. */
  readonly passes?: 'upright first' | 'inside last' | 'balanced'
  /** The settings book, oldest first. */
  readonly settings?: readonly WeldSetting[]
  /** What another way of cutting must save in steel before it is taken for square first: whole cents, or mm bought
   * where nothing has a price. Absent: only a saved stick counts. */
  readonly otherWaySaves?: number
  /** By how much a first piece may be off, mm; absent: half of what the shop reads. */
  readonly tolerance?: Mm
  /** Classes of ISO 13920 that frames are held to; absent: none, only the shop's own tolerance. */
  readonly general?: General
  /** The table that frames are put together on; absent: anything flat. */
  readonly table?: Table
  /** Habits at a set-up that are not said here; absent: all are said. */
  readonly habitsOff?: readonly Habit[]
  /** What marks are written with; absent: a paint pen. */
  readonly markWith?: 'paint pen' | 'scribe or stamp'
  /** Days after which a backup is old enough to remind of; 0: never; absent: 14. */
  readonly backupDays?: number
}
