import type { CuttingWay } from './nest.ts'
import type { SectionKind } from './section/section.ts'
import type { Mm } from './units.ts'

/** A length: mm, or a string as typed (`9 5/8`), kept as typed so that the person sees their own number again. */
export type Given = number | string

/** A section as chosen: lengths in mm or typed; wall may be a gauge (`16 ga`). */
export interface SectionGiven {
  readonly kind: SectionKind
  readonly width: Given
  /** Absent: equal to width. */
  readonly height?: Given
  /** Absent for solid bars. */
  readonly wall?: Given
  /** Outside corner; absent: by the rule of the section's kind and units. */
  readonly cornerRadius?: Given
  readonly grade?: string
}

export type RowGiven = Readonly<Record<string, Given | SectionGiven>>
export type ParamGiven = Given | boolean | SectionGiven | readonly RowGiven[]
export type Params = Readonly<Record<string, ParamGiven>>

/** What one joint of a kind draws in on the line of a size when it is welded, mm, each over 0. */
export type Shrinkage = { readonly [K in 'miter' | 'butt' | 'flat' | 'saddle']?: Mm }

/** What is wanted. Small, stored as revisions; everything else follows from it. */
export interface Job {
  readonly id: string
  readonly name: string
  /** How a bare number in a typed string is read; absent: as the shop reads. */
  readonly units?: 'in' | 'mm'
  readonly build: { readonly kind: string; readonly params: Params }
  readonly quantity: number
  /** Where the weld seam of the tube must lie in the finished frame; absent: anywhere. */
  readonly seam?: 'top' | 'bottom' | 'inside' | 'outside'
  /** Way of cutting that the person chose; absent: square first, unless another one saves enough. */
  readonly way?: CuttingWay
  readonly note?: string
  /** What the welds are taken to draw in: the asked sizes are planned larger by it. Absent: nothing. */
  readonly shrinkage?: Shrinkage
  /** The job that this one was copied from, while its notes, times and corrections are wanted here. */
  readonly from?: string
  /**
   * Members whose parts are to come from one stick in each copy, wish by wish, for an even color or a straight run. A
   * member that is no longer there says nothing. Absent: no such wish.
   */
  readonly oneStick?: readonly (readonly string[])[]
}
