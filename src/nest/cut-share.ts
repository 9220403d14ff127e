import type { NestProblem, Slope } from '../core/nest.ts'
import { front, junction, kerfAt, tail } from '../core/stick-room.ts'
import type { Mm } from '../core/units.ts'
import { type Ends, turnEnds } from './fit.ts'

// What each end of a piece pays of the cut beside it. Two ends that meet never pay more than their cut takes, so that
// pieces with their shares are never longer together than the stick that they need, in whatever order they lie.

export interface Shares {
  /** Of each part with the shares of its ends as it lies cheapest, mm. */
  readonly sizes: readonly Mm[]
  /** What a stick gives to such sizes at the most, mm. */
  room(stock: NestProblem['stock'][number]): Mm
}

const nameOf = ({ p, q }: Slope): string => `${p}/${q}`

/**
 * Half a kerf for every end, and then as much as can be asked of the leading or of the trailing ends: ends that never
 * meet their like, as where a seam is pinned outside, pay for two cuts and the wedge between. The dearer of the two.
 */
export function sharesOf(problem: NestProblem): Shares {
  const ways = problem.parts.map(({ ends, turns }) =>
    [...new Set(turns.length > 0 ? turns : (['none'] as const))].map((turn) => turnEnds(ends, turn)),
  )
  const all = ways.flat()
  const half = (slope: Slope) => kerfAt(problem.kerf, slope) / 2
  const leads = new Map(all.map(([lead]) => [nameOf(lead), lead]))
  const trails = new Map(all.map(([, trail]) => [nameOf(trail), trail]))
  const fromTrails = (paid: (slope: Slope) => Mm) =>
    most(leads, (lead) => [...trails.values()].map((trail) => junction(problem, trail, lead) - paid(trail)))
  const fromLeads = (paid: (slope: Slope) => Mm) =>
    most(trails, (trail) => [...leads.values()].map((lead) => junction(problem, trail, lead) - paid(lead)))
  const leadFirst = fromTrails(half)
  const trailFirst = fromLeads(half)
  const [a, b] = [
    shared(problem, ways, leadFirst, fromLeads(leadFirst)),
    shared(problem, ways, fromTrails(trailFirst), trailFirst),
  ]
  const asked = ({ sizes, room }: Shares) =>
    problem.parts.reduce((sum, { count }, part) => sum + count * sizes[part]!, 0) /
    Math.max(...problem.stock.map((stock) => room(stock)))
  return asked(b) > asked(a) ? b : a
}

function most(slopes: ReadonlyMap<string, Slope>, limits: (slope: Slope) => readonly Mm[]) {
  const paid = new Map([...slopes].map(([name, slope]) => [name, Math.min(...limits(slope))]))
  return (slope: Slope): Mm => paid.get(nameOf(slope))!
}

function shared(
  problem: NestProblem,
  ways: readonly (readonly Ends[])[],
  ofLead: (slope: Slope) => Mm,
  ofTrail: (slope: Slope) => Mm,
): Shares {
  const all = ways.flat()
  return {
    sizes: problem.parts.map(
      ({ mid }, part) => mid + Math.min(...ways[part]!.map(([lead, trail]) => ofLead(lead) + ofTrail(trail))),
    ),
    room: ({ length, ends }) =>
      length -
      Math.min(...all.map(([lead]) => front(problem, ends[0], lead) - ofLead(lead))) -
      Math.min(...all.map(([, trail]) => tail(problem, ends[1], trail) - ofTrail(trail))),
  }
}
