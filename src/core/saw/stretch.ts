import type { Saw } from '../shop.ts'
import type { Mm } from '../units.ts'
import type { Holding } from './hold.ts'
import type { Setting } from './setting.ts'
import type { Visit } from './visit.ts'

// What an order of work is chosen from: sticks, each with its cuts by how the saw stands for them.

/** Cuts of one stick at one head and stop; without a stop a clean-up cut by itself. */
export interface Stretch {
  readonly saw: Saw
  readonly stopSide: Holding['stopSide']
  readonly setting: Setting
  readonly mm?: Mm
  readonly longSide: 'fence' | 'outward'
  /** Ids of what it cuts. */
  readonly keeps: readonly string[]
  /** Held in another way than the one before. */
  readonly anew?: true
}

export interface StickCuts {
  readonly stretches: readonly Stretch[]
  /** One after the other as they stand; else in any order, and so the cuts of each. */
  readonly inOrder: boolean
  /** How many sticks lie side by side. */
  readonly beside: number
}

/** Some stretches of a stick, cut from loading to unloading; `last` is what is then in hand. */
export interface StickShare {
  readonly stick: number
  readonly stretches: readonly number[]
  readonly last?: string
}

/** Sticks that can be cut in any order of shares. */
export interface Lot {
  readonly sticks: readonly StickCuts[]
  /** The visits of each share; undefined where some cut could not be made so. */
  readonly lay: (shares: readonly StickShare[]) => readonly (readonly Visit[])[] | undefined
}

/** Visits of one part in the naive order; the round says how often the list was gone through before. */
export interface PartVisits {
  readonly round: number
  readonly mark: string
  readonly visits: readonly Visit[]
}
