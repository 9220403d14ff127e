import type { BenchCut, Plan, SetUp } from '../core/plan-shapes.ts'
import { showAngle } from '../core/reading/show.ts'
import type { Reading, Shop } from '../core/shop.ts'
import { sameSlope, typedAngle } from '../core/tolerance.ts'
import { type Deg, inch, type Mm, type Rad, tanDeg, toDeg } from '../core/units.ts'
import { setUpsInOrder } from './wall.ts'

// Every angle of a job as a paper triangle, to be held against the blade and the cut end.

export interface Gauge {
  /** From square. */
  readonly deg: Deg
  readonly text: string
  /** Over the longer leg, `5.779 in 12 in`: for every angle, whether the scale shows it or not. */
  readonly rise: string
  /** What it is for: `Miter of set-up 2, 3`, `On a face of A`. */
  readonly uses: readonly string[]
}

/** A right angle between two legs, mm; the slanted edge closes it. */
export interface Triangle {
  /** Along the fence, and square to it. */
  readonly along: Mm
  readonly across: Mm
  /** A slim triangle gets a strip beside it to hold it by. */
  readonly strip: Mm
}

/** The longer leg: the rise over it is then read off the shorter one, in 100 mm or in 4 in. */
const leg = { mm: 100, in: 4 * inch } as const
/** A triangle slimmer than this at its foot is widened, mm. */
const slim: Mm = 30
const stripWide: Mm = 25

/** The longer leg is the same for all angles; past 45° it lies along the fence, so that any angle fits on the paper. */
export function triangleOf(deg: Deg, reading: Reading): Triangle {
  const long = leg[reading.kind === 'mm' ? 'mm' : 'in']
  if (deg > 45) return { along: long, across: long / tanDeg(deg), strip: 0 }
  const along = long * tanDeg(deg)
  return { along, across: long, strip: along < slim ? stripWide : 0 }
}

export function riseOf(deg: Deg, reading: Reading): string {
  return reading.kind === 'mm'
    ? `${(100 * tanDeg(deg)).toFixed(2)} in 100 mm`
    : `${(12 * tanDeg(deg)).toFixed(3)} in 12 in`
}

interface Use {
  readonly deg: Deg
  /** `Miter of set-up`, and the 2 of it. */
  readonly what: string
  readonly which: string
}

const angleOf = (slope: number): Deg => toDeg(Math.abs(Math.atan(slope)) as Rad)

/** Angles that are set, by the number of their set-up on the wall cut sheet. */
function set(cuts: readonly BenchCut[]): Use[] {
  return setUpsInOrder(cuts).flatMap((group, at) => {
    const { swing, tilt, roll, ramp }: SetUp = group[0]!.setUp
    const which = String(at + 1)
    return [
      { deg: Math.abs(swing), what: 'Miter of set-up', which },
      { deg: Math.abs(tilt), what: 'Bevel of set-up', which },
      { deg: Math.abs(roll), what: 'Cradle block of set-up', which },
      { deg: Math.abs(ramp), what: 'Wedge of set-up', which },
    ]
  })
}

/** Angles on the faces of the pieces: what the cut end shows when it is right. */
function onPieces({ parts }: Plan): Use[] {
  return parts.flatMap(({ mark, slopes }) =>
    slopes.flatMap(({ p, q }) =>
      [p, q]
        .filter((slope) => Math.abs(slope) > sameSlope)
        .map((slope) => ({ deg: angleOf(slope), what: 'On a face of', which: mark })),
    ),
  )
}

/** One gauge for each angle of the job, least angle first; square needs none. */
export function gaugesOf(plan: Plan, cuts: readonly BenchCut[], { reading }: Shop): readonly Gauge[] {
  const uses = [...set(cuts), ...onPieces(plan)].filter(
    ({ deg }) => deg > typedAngle && deg < 90 - typedAngle,
  )
  const angles: Deg[] = []
  for (const { deg } of uses.toSorted((one, two) => one.deg - two.deg))
    if (angles.length === 0 || deg - angles.at(-1)! > 1e-4) angles.push(deg)
  return angles.map((deg) => {
    const mine = uses.filter((use) => Math.abs(use.deg - deg) <= 1e-4)
    const kinds = [...new Set(mine.map(({ what }) => what))]
    return {
      deg,
      text: showAngle(deg, reading).text,
      rise: riseOf(deg, reading),
      uses: kinds.map((kind) => {
        const which = [...new Set(mine.filter(({ what }) => what === kind).map((use) => use.which))]
        return `${kind} ${which.join(', ')}`
      }),
    }
  })
}
