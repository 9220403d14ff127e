import type { Result } from '../../core/result.ts'
import { bad, good } from '../../core/result.ts'
import { type Mm, mostLength } from '../../core/units.ts'

/** Which lengths a field takes, mm; without any of these 0 or more, up to what a document may hold. */
export interface Possible {
  readonly least?: Mm
  /** Longer than this, exclusive: 0 for the size of a thing. */
  readonly over?: Mm
  readonly most?: Mm
  /** 0 is possible as well, as what is left out. */
  readonly orNone?: boolean
  /** Why, said after what is possible. */
  readonly why?: string
}

/** The length, or what was given and what is possible; `say` says a length with its unit. */
export function possibleLength(mm: Mm, of: Possible, say: (mm: Mm) => string): Result<Mm> {
  const { least = 0, over, most = mostLength } = of
  const low = over === undefined ? mm >= least : mm > over
  if ((low && mm <= most) || (of.orNone && mm === 0)) return good(mm)
  const from = over === undefined ? say(least) : `more than ${say(over)}`
  const range =
    most < mostLength || mm > most
      ? `${from} to ${say(most)}`
      : `${from}${over === undefined ? ' or more' : ''}`
  return bad(
    'length-range',
    `${say(mm)} was given; ${of.orNone ? '0 for none, or ' : ''}${range} is possible${of.why ? `: ${of.why}` : ''}.`,
  )
}
