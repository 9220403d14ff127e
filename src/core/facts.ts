import type { Slope, StickEnd } from './nest.ts'
import type { Section } from './section/section.ts'
import type { WeldSetting } from './shop.ts'
import type { Mm } from './units.ts'

/** Envelope of everything that happened. Never rewritten; `at` is shown, never compared. */
export interface Fact<Kind extends string = string, Body = unknown> {
  /** `device:seq`. */
  readonly id: string
  /** Version of the body's shape; old ones are read through upcasters. */
  readonly v: number
  readonly kind: Kind
  readonly device: string
  readonly seq: number
  readonly lamport: number
  /** ISO time of the device's clock. */
  readonly at: string
  readonly job?: string
  readonly copy?: number
  readonly nest?: string
  readonly body: Body
}

/** Where steel was cut from: a stick of the named nest, or a piece named by its cut fact. */
export type CutFrom = { readonly stick: string } | { readonly piece: string }

/** Bodies at their newest version, by kind. A cut says "one piece of this geometry", never "slot 3 done". */
export interface Bodies {
  readonly cut: {
    readonly stage: 'blank' | 'half' | 'piece'
    /** Geometry key of what came off. */
    readonly key: string
    readonly mark: string
    /** What the person saw on the button, as `A5`; shown, never compared. */
    readonly label: string
    readonly from: CutFrom
    /** Several pieces that one stroke made side by side, written as one: which of them, of how many. Absent: it alone. */
    readonly stroke?: { readonly at: number; readonly of: number }
  }
  readonly undo: { readonly fact: string }
  /** This nest is the one to work by, for these jobs (its `jobs`). */
  readonly accepted: { readonly nest: string }
  readonly bought: {
    readonly section: Section
    readonly length: Mm
    readonly count: number
    readonly price?: number
  }
  readonly found: {
    readonly section: Section
    readonly length: Mm
    readonly ends: readonly [StickEnd, StickEnd]
  }
  /** A stick of a nest went on the saw; `rack` names the piece that it is. */
  readonly opened: { readonly stick: string; readonly rack?: string }
  readonly kept: {
    readonly section: Section
    readonly stick: string
    readonly length: Mm
    readonly ends: readonly [StickEnd, StickEnd]
    /** What is painted on it, in full (`dropSign`); absent: it follows from the id of this fact. */
    readonly sign?: string
  }
  /** What is left of this stick of the nest is scrap. */
  readonly scrapped: { readonly stick: string }
  /** A stick of the nest as it really lies on the saw: it may be longer than bought, a drop is what it is. */
  readonly loaded: {
    readonly stick: string
    readonly length: Mm
    readonly ends: readonly [StickEnd, StickEnd]
  }
  /**
   * A cut that went wrong. `from` is the steel that it spoiled: the stick that it came off before it was checked off, the
   * blank or half that it was made on, or the piece itself once that was checked off. The rest says what it was to be.
   */
  readonly miscut: Omit<Bodies['cut'], 'from'> & {
    readonly from: CutFrom
    readonly why: string
    readonly section: Section
    /** What it took off its stick along the center line, without the kerf, mm; 0 where it was no longer on one. */
    readonly took: Mm
    /** What can still be cut from, mm, on its short side; 0 for nothing. It lies on the rack under the name of this fact. */
    readonly left: Mm
    readonly ends: readonly [StickEnd, StickEnd]
  }
  /** A measure taken of one physical piece: `what` names it, as `long point`. */
  readonly measured: { readonly piece: string; readonly what: string; readonly got: Mm; readonly wanted?: Mm }
  /** The stop of this set-up of the nest stands off what its scale says by so much, mm, away from the blade. */
  readonly stopMoved: { readonly setUp: string; readonly by: Mm }
  /** Another blade is on this saw. */
  readonly bladeChanged: { readonly saw: string; readonly blade: string; readonly kerf: Mm }
  /** What was tacked or welded of this copy so far was cut apart: its pieces are steel again. */
  readonly cutApart: { readonly why: string }
  readonly discarded: { readonly rack: string }
  readonly corrected: { readonly rack: string; readonly length: Mm }
  /** A rest of sheet or plate lies on the rack; the greater side is the length. */
  readonly sheetFound: { readonly thickness: Mm; readonly length: Mm; readonly width: Mm }
  readonly sheetCorrected: { readonly sheet: string; readonly length: Mm; readonly width: Mm }
  readonly sheetDiscarded: { readonly sheet: string }
  readonly tacked: { readonly step: string }
  readonly welded: { readonly step: string }
  readonly checked: { readonly step: string }
  /**
   * What a person measured on the bench. `of` is a structural name whose first word says what was measured, as
   * `length:top/side-3`, `angle:top/side-3/A`, `diagonal:top/1-4`, `minutes:weld`; mm, or degrees for an angle.
   */
  readonly gauged: { readonly of: string; readonly value: number }
  /** What a person wrote about one step of one copy, or about the whole of it: `of` is the id of the step, or `job`. */
  readonly noted: { readonly of: string; readonly text: string }
  /** What the welding machine was set to for one class of seam and wall of this copy. */
  readonly setTo: Omit<WeldSetting, 'result'>
}

export type FactKind = keyof Bodies
export type KnownFact = { readonly [K in FactKind]: Fact<K, Bodies[K]> }[FactKind]

/** A fact before the log gives it its id, sequence, lamport and time. */
export type FactDraft = {
  readonly [K in FactKind]: {
    readonly kind: K
    readonly body: Bodies[K]
    readonly job?: string
    readonly copy?: number
    readonly nest?: string
  }
}[FactKind]

/** A physical piece of steel, named by the fact that cut it off. */
export interface Made {
  readonly id: string
  readonly job: string
  readonly nest?: string
  /** Copy of the job that it was cut for. */
  readonly copy?: number
  readonly stage: 'blank' | 'half' | 'piece'
  readonly key: string
  readonly mark: string
  readonly label: string
  readonly from: CutFrom
  /** Stick that the steel came from in the end. */
  readonly stick?: string
  /** Cut further by a later fact, or gone on the saw as a stick of its own: no longer lying there as this. */
  readonly used: boolean
  /** The piece it was cut from is not in the log, or was undone: the steel is there all the same. */
  readonly orphan?: true
}

/** Steel that a cut spoiled, named by the fact that says so. It stands where the piece would stand. */
export interface Spoiled
  extends Pick<Made, 'id' | 'job' | 'nest' | 'stage' | 'key' | 'mark' | 'label' | 'stick'> {
  /** What it was cut from: that of the piece, where it had been checked off. */
  readonly from: CutFrom
  readonly why: string
  readonly took: Mm
  readonly left: Mm
}

export interface RackPiece {
  /** Fact that brought it, with `/n` for the n-th of several bought at once. */
  readonly id: string
  readonly section: Section
  readonly length: Mm
  readonly ends: readonly [StickEnd, StickEnd]
  readonly from: 'bought' | 'found' | 'drop'
  /** What is painted on it, in full; absent: it follows from the id. */
  readonly sign?: string
  readonly price?: number
}

/** A rest of sheet or plate, named by the fact that brought it. */
export interface SheetDrop {
  readonly id: string
  readonly thickness: Mm
  /** The greater side. */
  readonly length: Mm
  readonly width: Mm
}

/** The log folded: the same for every order, doubling and clock. */
export interface Progress {
  /** Nest to work by, per job: greatest (lamport, device) wins. */
  readonly accepted: Readonly<Record<string, string>>
  readonly made: readonly Made[]
  readonly rack: readonly RackPiece[]
  /** Rests of sheet and plate that lie there. */
  readonly sheets: readonly SheetDrop[]
  /** Sticks that went on the saw: `nest/stick` to the rack piece it was, or null where it was bought for it. */
  readonly opened: Readonly<Record<string, string | null>>
  /** Drops that were kept: `nest/stick`. */
  readonly kept: readonly string[]
  /** Sticks whose rest is scrap: `nest/stick`. */
  readonly scrapped: readonly string[]
  /** Sticks as they really were: `nest/stick`. */
  readonly loaded: Readonly<Record<string, Pick<Bodies['loaded'], 'length' | 'ends'>>>
  /** Pieces that went wrong; they are not among those made. */
  readonly spoiled: readonly Spoiled[]
  /** Measures of pieces: `piece/what`. */
  readonly measured: Readonly<Record<string, Pick<Bodies['measured'], 'got' | 'wanted'>>>
  /** Corrections of the stop, `nest/set-up`, with the fact: whether the head moved since is for the reader of the log. */
  readonly stops: Readonly<Record<string, { readonly fact: string; readonly by: Mm }>>
  /** The blade that is on, per saw. */
  readonly blades: Readonly<Record<string, Pick<Bodies['bladeChanged'], 'blade' | 'kerf'>>>
  /** Copies of which something was tacked or welded since they were last cut apart, `job/copy`: their pieces are no steel. */
  readonly joined: readonly string[]
  /** Steps done in the Weld station, `job/copy/step` to the fact. */
  readonly ticked: Readonly<Record<string, string>>
  /** What was measured at Fit-up, Weld and Finish, `job/copy/of` to the figure and its fact: greatest (lamport, device) wins. */
  readonly gauged: Readonly<Record<string, { readonly value: number; readonly fact: string }>>
  /** What was written about a step, `job/copy/of`: greatest (lamport, device) wins. */
  readonly notes: Readonly<Record<string, { readonly text: string; readonly fact: string }>>
  /** What the machine was set to, `job/copy/seam class, wall`. */
  readonly settings: Readonly<Record<string, Bodies['setTo']>>
  /** The last counting fact per job, which Undo names. */
  readonly last: Readonly<Record<string, string>>
  /** Facts of a kind or version that this program does not know. */
  readonly unknown: readonly Fact[]
  /** Single-valued facts that lost, with the winner. */
  readonly losers: readonly { readonly fact: string; readonly winner: string }[]
}

export type { Slope }
