import type { Product, Shown, StickFace, Turn } from '../plan-shapes.ts'
import type { Section } from '../section/section.ts'
import type { Saw } from '../shop.ts'
import type { Mm } from '../units.ts'
import type { Holding } from './hold.ts'
import type { Side } from './lying.ts'
import type { Method } from './method.ts'
import type { Setting } from './setting.ts'

/** A clean-up cut without a stop: so much of the leading end goes, mm, kerf included. */
export interface CleanUp {
  readonly loss: Mm
  readonly setting: Setting
  /** Before it, since the cut before. */
  readonly turns: readonly Turn[]
}

/** A cut with everything that is set for it. Square cuts of a stick make blanks, or pieces that are
 * then finished; "stick" is a piece cut from the stick with its final ends, "split" makes two pieces of one blank. */
export interface Cut extends Setting {
  readonly kind: 'blank' | 'square' | 'first' | 'second' | 'only' | 'stick' | 'split'
  readonly method: Method
  /** Unrounded stop, mm, and the one that is set. */
  readonly exact: Mm
  readonly stop: Shown
  readonly longSide: 'fence' | 'outward'
  readonly faceDown: StickFace
  /** Where the weld seam looks at this cut, and at the first cut of the same blank; absent where it is free. */
  readonly seam?: { readonly now: Side; readonly loaded: Side }
  readonly parallel: boolean
  /** Before the cut; after the clean-up, where there is one. */
  readonly turns: readonly Turn[]
  readonly cleanUp?: CleanUp
  /** All turnings of the blank from the first cut to the last: cuts are said together only where these are alike. */
  readonly handling: string
  readonly keep: Product
  /** What lies behind the blade goes on being cut, is scrap, or is a finished piece too. */
  readonly rest: 'on' | 'scrap' | Product
}

/** One workpiece from loading to unloading. */
export interface Visit extends Holding {
  readonly saw: Saw
  readonly section: Section
  readonly kerf: Mm
  readonly load: string
  readonly cuts: readonly Cut[]
  /** Clean-up for the cut that the next visit of this stick begins with. */
  readonly cleanUpLast?: CleanUp
  /** It lies side by side with this workpiece: the same strokes cut both. */
  readonly beside?: string
  /** What is taken off the saw at the end; absent where nothing is left. */
  readonly leaves?: Product | 'scrap'
}

const axisOf: Readonly<Record<Side, string>> = { up: 'z', down: 'z', fence: 'y', outward: 'y' }

/** Cuts that are made with everything left as it stands. */
export const settingKey = ({ saw, section, stopSide, hold }: Visit, cut: Cut): string =>
  [
    saw.id,
    section.kind,
    section.width,
    section.height,
    section.wall,
    section.cornerRadius,
    section.grade ?? '',
    stopSide,
    hold,
    cut.swing,
    cut.tilt,
    cut.roll,
    cut.ramp,
    // A stick that is turned over between its pieces has one set-up: the axis of the seam stays.
    cut.seam ? (cut.kind === 'stick' ? axisOf[cut.seam.now] : cut.seam.loaded) : '',
    cut.stop.mm,
    cut.exact.toFixed(6),
    cut.longSide,
    // A piece turned over between its two cuts still has one set-up for both.
    cut.faceDown[1],
    cut.handling,
  ].join(' ')
