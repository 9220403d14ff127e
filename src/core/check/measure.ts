import type { NestProblem, Slope } from '../nest.ts'
import { addedUp, stepSlack } from '../tolerance.ts'
import { type Mm, stepsPerMm } from '../units.ts'
import { exactly, front, junction, kerfAlong, tail, turned } from './room.ts'

// What each part takes of a stick at the least, and what a stick gives at the most, whatever the order of its pieces.
// Everything is rounded so that a stick holds rather too much than too little: then no bound is above the truth.

/** Lengths are counted in thousandths of a whole step, so that rounding down gives nearly nothing away. */
const grainsPerMm = 1000 * stepsPerMm

/** A length on a whole step is exactly that, whatever adding up put on it; another one goes down. */
function grainsDown(length: Mm): number {
  const steps = Math.round(length * stepsPerMm)
  return Math.abs(steps / stepsPerMm - length) <= addedUp ? 1000 * steps : Math.floor(length * grainsPerMm)
}

/** Least that each part takes of a stick, and most that the parts may take of each kind of stock together; grains. */
export interface Measure {
  readonly sizes: readonly number[]
  readonly rooms: readonly number[]
}

/**
 * Ways to charge the pieces for the cuts, every one of them safe: two ends that meet are charged no more together than
 * their cut takes, so that no row of pieces is charged more than it needs. Square ends have half a kerf each.
 */
export function measuresOf(problem: NestProblem): readonly Measure[] {
  const ways = problem.parts.map((part) =>
    [...new Set([...part.turns, 'none' as const])].map((turn) => turned(part.ends, turn)),
  )
  const leads = distinct(ways.flatMap((each) => each.map(([lead]) => lead)))
  const trails = distinct(ways.flatMap((each) => each.map(([, trail]) => trail)))
  const between = (trail: Slope, lead: Slope): Mm => exactly(junction(problem, trail, lead))
  const half = (slope: Slope): Mm => kerfAlong(problem.kerf, slope) / 2
  /** The most that a lead may be charged beside all these trails, and the same the other way round. */
  const leading = (charged: Charges): Charges =>
    charge(leads, (lead) => least(trails, (trail) => between(trail, lead) - charged(trail)))
  const trailing = (charged: Charges): Charges =>
    charge(trails, (trail) => least(leads, (lead) => between(trail, lead) - charged(lead)))
  const first = leading(half)
  const second = trailing(half)
  const measures = [
    measureOf(problem, ways, first, trailing(first)),
    measureOf(problem, ways, leading(second), second),
  ]
  return JSON.stringify(measures[0]) === JSON.stringify(measures[1]) ? measures.slice(1) : measures
}

type Ways = readonly (readonly (readonly [Slope, Slope])[])[]

/** What one end of this slope is charged, mm. */
type Charges = (slope: Slope) => Mm

const nameOf = ({ p, q }: Slope): string => `${p || 0} ${q || 0}`

const distinct = (slopes: readonly Slope[]): readonly Slope[] => [
  ...new Map(slopes.map((slope) => [nameOf(slope), slope])).values(),
]

function charge(slopes: readonly Slope[], of: Charges): Charges {
  const known = new Map(slopes.map((slope) => [nameOf(slope), of(slope)]))
  return (slope) => known.get(nameOf(slope))!
}

const least = <T>(list: readonly T[], of: (each: T) => number): number =>
  list.reduce((all, each) => Math.min(all, of(each)), Number.POSITIVE_INFINITY)

function measureOf(problem: NestProblem, ways: Ways, leading: Charges, trailing: Charges): Measure {
  const sizes = problem.parts.map(({ mid }, part) =>
    grainsDown(mid + least(ways[part]!, ([lead, trail]) => leading(lead) + trailing(trail))),
  )
  const all = ways.flat()
  const rooms = problem.stock.map(({ length, ends }) => {
    const atFront = least(all, ([lead]) => exactly(front(problem, ends[0], lead)) - leading(lead))
    const atTail = least(all, ([, trail]) => exactly(tail(problem, ends[1], trail)) - trailing(trail))
    return Math.ceil((length - atFront - atTail + stepSlack) * grainsPerMm)
  })
  return { sizes, rooms }
}
