import type { Seam, SeamClass } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'

/** What is welded without turning the frame: blocks of seams, each in the order of going round, or a turning between. */
export type Stretch = { readonly block: readonly Seam[] } | { readonly turn: true }

/** Classes that are welded from above, before the tops: upright corners, then whatever else can be reached. */
const first: readonly SeamClass[] = ['outside', 'inside', 'fillet', 'flare', 'square groove', 'edge']

/**
 * Passes of one sub-assembly: upright corners, tops, turn, bottoms. `inside last`: the inside corners after the bottoms,
 * since the inside weld pulls the corner closed. `balanced`: half of the tops, turn, all bottoms, turn, the other tops.
 */
export function stretchesOf(seams: readonly Seam[], passes: Shop['passes']): readonly Stretch[] {
  const of = (kind: SeamClass) => seams.filter((seam) => seam.class === kind)
  const [tops, bottoms, insides] = [of('top'), of('bottom'), of('inside')]
  const insideLast = passes === 'inside last' && bottoms.length > 0
  const upright = first.filter((kind) => !(insideLast && kind === 'inside')).map(of)
  const half = Math.ceil(tops.length / 2)
  const balanced = passes === 'balanced' && tops.length > 1 && bottoms.length > 0
  const list: readonly (readonly Seam[] | 'turn')[] = balanced
    ? [
        ...upright,
        // Every other one, so that both halves lie all round.
        tops.filter((_, at) => at % 2 === 0).slice(0, half),
        'turn',
        bottoms,
        'turn',
        tops.filter((_, at) => at % 2 === 1),
      ]
    : [
        ...upright,
        tops,
        ...(bottoms.length > 0 ? ['turn' as const] : []),
        bottoms,
        ...(insideLast ? [insides] : []),
      ]
  return list.flatMap((each): readonly Stretch[] => {
    if (each === 'turn') return [{ turn: true }]
    return each.length > 0 ? [{ block: each }] : []
  })
}
