import type { Draft } from '../../core/draft.ts'
import { type Circle, circleOf, type Dimension, dimensionsOf } from './dimensions.ts'
import type { TypedLength } from './fields.ts'
import { type LandedLines, landedIn, landedLines } from './landed.ts'
import { platesOnTop } from './on-top.ts'
import { backToFront, type Seen } from './shapes.ts'
import { solidsOf } from './solid.ts'
import { fromAbove, fromFront } from './view.ts'

/** What plan and elevation of a frame show, on the page in mm. */
export interface BothViews {
  readonly plan: readonly Seen[]
  readonly front: readonly Seen[]
  /** Plates on top, by their ids: in the plan they would hide the frame, and are drawn as a line alone. */
  readonly onTop: ReadonlySet<string>
  readonly landed: { readonly plan: readonly LandedLines[]; readonly front: readonly LandedLines[] }
  readonly dimensions: readonly Dimension[]
  readonly circle: Circle | null
}

/**
 * Plan and elevation with their dimensions. While a size is dragged the landings are left out: they are no edges, and a
 * picture of the screen has no time for all of them.
 */
export function bothViews(draft: Draft, typed: readonly TypedLength[], dragged: boolean): BothViews {
  const { frame } = draft
  const solids = solidsOf(frame)
  const onTop = platesOnTop(draft)
  const plan = backToFront(solids, fromAbove, ({ id }) => onTop.has(id))
  const front = backToFront(solids, fromFront)
  const landed = dragged ? [] : landedIn(frame)
  const dimensions = dimensionsOf(draft, typed)
  return {
    plan,
    front,
    onTop,
    landed: { plan: landedLines(landed, plan, fromAbove), front: landedLines(landed, front, fromFront) },
    dimensions,
    circle: circleOf(draft, typed, dimensions),
  }
}
