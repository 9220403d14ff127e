import type { Pose } from '../geometry/pose.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import type { Section } from '../section/section.ts'
import type { Deg, Mm } from '../units.ts'

/** A cut through a member's end: a point and the outward unit normal, in the member's local frame. */
export interface EndCut {
  readonly point: Vec3
  /** End A has normal x < 0, end B has normal x > 0. */
  readonly normal: Vec3
  /**
   * The end of a round tube that fits round another: it is first cut by the plane above, past the longest point of the
   * saddle, then worked to the template.
   */
  readonly saddle?: Saddle
}

/** The outside of the round tube that an end is fitted to, in the member's local frame. */
export interface Saddle {
  readonly on: string
  readonly point: Vec3
  /** Unit vector along its axis. */
  readonly along: Vec3
  /** Its outside radius, mm; with a root gap, the gap is added. */
  readonly radius: Mm
}

/** Id of the member or plate that an end meets, or how it ends otherwise. */
export type Mate = string

export interface Member {
  /** Structural path, as `top/side-3`: it survives an edit elsewhere. */
  readonly id: string
  readonly name: string
  readonly section: Section
  /**
   * Local to world, 16 numbers, column-major: x along the axis from end A, y across (section width),
   * z up through the section (height); section centered on the axis.
   */
  readonly pose: Pose
  readonly ends: readonly [EndCut, EndCut]
  /** What each end meets: a member's or plate's id, `floor`, or `open`. */
  readonly mates: readonly [Mate, Mate]
  /** Root gap already taken off, mm, measured square to the joint. */
  readonly gap: Mm
}

export interface Slot {
  readonly x: Mm
  readonly y: Mm
  readonly width: Mm
  readonly length: Mm
  readonly angle: Deg
}

/** A flat sheet or plate: polygon in local xy, thickness along +z. */
export interface Plate {
  readonly id: string
  readonly name: string
  readonly polygon: readonly (readonly [Mm, Mm])[]
  /** x, y, diameter. */
  readonly holes: readonly (readonly [Mm, Mm, Mm])[]
  /** Holes that are longer than wide, ends round: middle, width, length over all, way of the length from +x, degrees. */
  readonly slots?: readonly Slot[]
  readonly thickness: Mm
  readonly pose: Pose
  /** For a tapped hole: thread name, one for all holes of this plate. */
  readonly thread?: string
  /** Cut last, scribed from the frame as built: so far outside the line (inside where negative). Absent: cut by its numbers. */
  readonly scribed?: Mm
  /** Welded to, bolted to or laid on these members. */
  readonly on: readonly string[]
}

export type JointKind = 'miter' | 'butt' | 'flat' | 'cap' | 'saddle'

export interface Joint {
  /** Structural path, as `top/corner-3`. */
  readonly id: string
  readonly kind: JointKind
  /** For a butt or flat joint the stopping member stands first, the one that runs through second. */
  readonly members: readonly string[]
  readonly at: Vec3
  /** Which end of each member is in the joint, in the order of `members`; `side` = somewhere along it. */
  readonly ends: readonly ('A' | 'B' | 'side')[]
}

export interface Hardware {
  readonly id: string
  readonly kind: string
  readonly count: number
  readonly at: Vec3
  readonly text?: string
}

/** A size along a world axis, from a place on it; in the elevation where `front`, else x and y in the plan, z in front. */
export interface DrawnAt {
  readonly axis: 'x' | 'y' | 'z'
  readonly from: Mm
  readonly front?: true
  /** The parameter that a tap on it leads to. */
  readonly field: string
}

/** A size of the finished thing, and how it follows from the lengths that are cut: offset + Σ factor · length. */
export interface Measure {
  readonly name: string
  readonly mm: Mm
  /** The person asked for this one. */
  readonly asked: boolean
  /** The parameter of the build that asks for it, where it grows with that mm for mm. */
  readonly param?: string
  /** Where the drawing shows it; absent: where it is found to be as long as something that is drawn. */
  readonly drawn?: DrawnAt
  readonly offset: Mm
  /** `member`: its primary length (long point, or edge if the ends are parallel). */
  readonly terms: readonly { readonly member: string; readonly factor: number }[]
}

/** A warning about the frame: said, never a refusal. */
export interface Warning {
  readonly code: string
  readonly text: string
  readonly members?: readonly string[]
}

/** How sub-assemblies are welded: a ring lies flat and is turned over; the rest is welded where it stands. */
export interface Assembly {
  readonly id: string
  readonly name: string
  readonly members: readonly string[]
  /** In the order in which they follow round a ring; absent where the joints form no ring. */
  readonly ring?: readonly string[]
}

export interface Frame {
  readonly members: readonly Member[]
  readonly plates: readonly Plate[]
  readonly joints: readonly Joint[]
  readonly hardware: readonly Hardware[]
  readonly assemblies: readonly Assembly[]
  readonly measures: readonly Measure[]
  readonly warnings: readonly Warning[]
  readonly size: Vec3
  /** World z of the floor. */
  readonly floor: Mm
}
