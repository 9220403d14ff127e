import { dot, type Vec3 } from '../geometry/vec3.ts'
import type { Seam, SeamClass } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'

/** What is welded without turning the frame: blocks of seams, each in the order of going round, or a turning between. */
export type Stretch = { readonly block: readonly Seam[] } | { readonly turn: true }

/** Classes that are welded from above, before the tops: upright corners, then whatever else can be reached. */
const first: readonly SeamClass[] = ['outside', 'inside', 'fillet', 'flare', 'square groove', 'edge']

/** A seam that looks down by more than this, as sine, is welded overhead: what it is on is turned over first. */
const overhead = 0.5

/**
 * Passes of one sub-assembly. A ring lies flat, and is welded by the classes of its seams; anything else lies with `up`
 * upward, and what looks down then waits until it is turned over.
 */
export const stretchesOf = (seams: readonly Seam[], passes: Shop['passes'], up?: Vec3): readonly Stretch[] =>
  joined(up ? asItLies(seams, passes, up) : ofRing(seams, passes))

type Pass = readonly Seam[] | 'turn'

function joined(list: readonly Pass[]): readonly Stretch[] {
  return list.flatMap((each): readonly Stretch[] => {
    if (each === 'turn') return [{ turn: true }]
    return each.length > 0 ? [{ block: each }] : []
  })
}

/** What can be reached first, class by class, then turned over, what looked down. */
function asItLies(seams: readonly Seam[], passes: Shop['passes'], up: Vec3): readonly Pass[] {
  const late = ({ class: kind }: Seam) => passes === 'inside last' && kind === 'inside'
  const isFlat = ({ class: kind }: Seam) => kind === 'top' || kind === 'bottom'
  const down = seams.filter(({ out }) => dot(out, up) < -overhead)
  const above = seams.filter((seam) => !down.includes(seam))
  const inClasses = (all: readonly Seam[]): readonly Pass[] =>
    [...first, 'top', 'bottom'].map((kind) => all.filter((seam) => seam.class === kind && !late(seam)))
  const [flats, others] = [above.filter(isFlat), above.filter((seam) => !isFlat(seam))]
  if (passes === 'balanced' && flats.length > 1 && down.some(isFlat))
    return [...inClasses(others), ...halved(flats, inClasses(down))]
  const lateDown = down.filter(late)
  const lateAbove = above.filter(late)
  const turns = down.length > 0
  return [
    ...inClasses(above),
    ...(turns ? ['turn' as const] : []),
    ...inClasses(down),
    lateDown,
    ...(turns && lateAbove.length > 0 ? ['turn' as const] : []),
    lateAbove,
  ]
}

/** Half of the flat seams, turn, all below, turn, the other half: every other one, so that both halves lie all round. */
const halved = (flats: readonly Seam[], below: readonly Pass[]): readonly Pass[] => [
  flats.filter((_, at) => at % 2 === 0),
  'turn',
  ...below,
  'turn',
  flats.filter((_, at) => at % 2 === 1),
]

/**
 * Passes of a ring: upright corners, tops, turn, bottoms. `inside last`: the inside corners after the bottoms,
 * since the inside weld pulls the corner closed. `balanced`: half of the tops, turn, all bottoms, turn, the other tops.
 */
function ofRing(seams: readonly Seam[], passes: Shop['passes']): readonly Pass[] {
  const of = (kind: SeamClass) => seams.filter((seam) => seam.class === kind)
  const [tops, bottoms, insides] = [of('top'), of('bottom'), of('inside')]
  const insideLast = passes === 'inside last' && bottoms.length > 0
  const upright = first.filter((kind) => !(insideLast && kind === 'inside')).map(of)
  const balanced = passes === 'balanced' && tops.length > 1 && bottoms.length > 0
  if (balanced) return [...upright, ...halved(tops, [bottoms])]
  return [
    ...upright,
    tops,
    ...(bottoms.length > 0 ? ['turn' as const] : []),
    bottoms,
    ...(insideLast ? [insides] : []),
  ]
}
