import type { Frame } from '../frame/frame.ts'
import type { ParamGiven, Params } from '../job.ts'
import type { Result } from '../result.ts'
import type { Section } from '../section/section.ts'

/** One parameter of a build: what the Sizes station asks for and what is possible. */
export interface ParamSpec {
  readonly name: string
  readonly label: string
  readonly type: 'length' | 'count' | 'angle' | 'choice' | 'section' | 'flag' | 'text' | 'rows'
  /** Value of a new job, in an inch shop and in a metric one. */
  readonly start: ParamGiven | { readonly in: ParamGiven; readonly mm: ParamGiven }
  readonly choices?: readonly { readonly value: string; readonly label: string }[]
  /** Columns of `rows`. */
  readonly columns?: readonly ParamSpec[]
  /** What one of the `rows` is, as in `one point per line`; absent: a piece. */
  readonly each?: string
  /** A `text` column whose rows must all differ: a new row gets a name of its own. */
  readonly unique?: boolean
  /** A `text` column that names a row of this parameter or of another one by its column. */
  readonly among?: { readonly rows: string; readonly column: string }
  /** Least and most possible, inclusive, with the reason: `a polygon needs three sides`. Of a text: its letters. */
  readonly least?: number
  readonly most?: number
  readonly why?: string
  /** May be left out. */
  readonly optional?: boolean
  /** Asked for since later: a job that was stored without it reads as if it held the starting value. */
  readonly late?: boolean
  /** Only asked for, and only read, while this holds. */
  readonly when?: (given: Params) => boolean
  /** Heading under which it stands. */
  readonly group?: string
  readonly hint?: string
}

export type RowValue = Readonly<Record<string, number | string | Section>>
export type Value = number | string | boolean | Section | readonly RowValue[]

/** Parameters resolved: lengths in mm, angles in degrees. Only names whose `when` holds are present. */
export type Values = Readonly<Record<string, Value>>

/** What the shop adds to a build. */
export interface BuildContext {
  /** Root gap at every joint, mm. */
  readonly gap: number
  /** How a length is said in messages. */
  readonly say: (mm: number) => string
}

/** A kind of thing to make: a pure function from parameters to a frame. A new kind is one new file. */
export interface Build {
  readonly kind: string
  readonly title: string
  readonly about: string
  /** Path data of its little picture, 48 × 48. */
  readonly picture: string
  readonly params: readonly ParamSpec[]
  readonly frame: (values: Values, context: BuildContext) => Result<Frame>
}
