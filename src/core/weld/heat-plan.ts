import type { Frame } from '../frame/frame.ts'
import type { Seam, SeamClass, WeldPlan } from '../plan-shapes.ts'
import type { Mm } from '../units.ts'
import { type HeatModel, type HotSeam, heats, nearness, travel, usualHeat } from './heat.ts'
import { alongSteel, type SteelEdge, steelOf } from './steel-graph.ts'

/** Seams as heat counts them, and how near they are to each other along the steel. */
export function heatQuestion(frame: Frame, seams: readonly Seam[], model: HeatModel = usualHeat) {
  const { edges, places } = steelOf(frame, seams)
  const raw = seams.map(({ length, size }) => length * size ** 2)
  const most = Math.max(...raw, 0)
  const hot = seams.map(
    ({ length }, at): HotSeam => ({ q: most > 0 ? raw[at]! / most : 0, minutes: length / travel }),
  )
  return { edges, places, seams: hot, near: nearness(alongSteel(edges, places), model), model }
}

/** The order of a weld plan as other programs can reckon it again: steel, seams on it, model, and both indexes. */
export interface HeatPlan {
  readonly graph: { readonly edges: readonly SteelEdge[] }
  readonly seams: readonly {
    readonly id: string
    readonly edge: string
    readonly pos: Mm
    readonly q: number
    readonly minutes: number
    readonly class: SeamClass
  }[]
  readonly model: HeatModel
  /** Worst preheat of the order of the plan, and of going round under the same classes. */
  readonly index: number
  readonly round: number
}

export function heatPlan(frame: Frame, { seams, order, round }: WeldPlan): HeatPlan {
  const asked = heatQuestion(frame, seams)
  const numbers = new Map(seams.map(({ id }, at) => [id, at]))
  const indexOf = (ids: readonly string[]) =>
    heats(
      ids.flatMap((id) => numbers.get(id) ?? []),
      asked.seams,
      asked.near,
      asked.model,
    ).index
  return {
    graph: { edges: asked.edges },
    seams: seams.map(({ id, class: kind }, at) => ({
      id,
      ...asked.places[at]!,
      ...asked.seams[at]!,
      class: kind,
    })),
    model: asked.model,
    index: indexOf(order),
    round: indexOf(round),
  }
}
