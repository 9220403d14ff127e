import type { Plate } from '../frame/frame.ts'
import { faultOf, greatest, moved } from '../geometry/outline.ts'
import { counterclockwise, type Polygon } from '../geometry/polygon.ts'
import { bad, good, type Result } from '../result.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'

/** What a plate or sheet on top is cut to: the frame's outline, moved out for an overhang or in for an inset. */
export interface Rim {
  readonly moved: (out: Mm) => Polygon
  /** Why it cannot be moved out that far (in where negative) and what is possible; absent where it can. */
  readonly fault: (out: Mm) => string | undefined
}

/** The rim of any simple outline. */
export const rimOf = (outline: Polygon, say: (mm: Mm) => string): Rim => ({
  moved: (out) => counterclockwise(moved(outline, out)),
  fault(out) {
    const fault = faultOf(outline, out)
    if (!fault) return undefined
    const most = greatest(Math.abs(out), (by) => faultOf(outline, Math.sign(out) * by) === undefined)
    const what =
      'side' in fault
        ? `leaves nothing of side ${fault.side + 1} of the top`
        : `runs sides ${fault.sides[0] + 1} and ${fault.sides[1] + 1} of the top into each other`
    return `An ${out < 0 ? 'inset' : 'overhang'} of ${say(Math.abs(out))} ${what}; it must be less than ${say(most)}.`
  },
})

/** The plate or sheet that `topParams` ask for, its underside at `z`; absent where nothing lies on top. */
export function plateOn(
  values: Values,
  { say }: BuildContext,
  z: Mm,
  rim: Rim,
  on: readonly string[],
): Result<Plate | undefined> {
  if (values.top === 'none') return good(undefined)
  const thickness = values.topThickness as Mm
  if (!(thickness > 0))
    return bad(
      'thickness',
      `The thickness on top was given as ${say(thickness)}; it must be more than 0.`,
      'build.params.topThickness',
    )
  const by = (values.topEdgeBy as Mm | undefined) ?? 0
  const edge = values.topEdge as string
  if (edge !== 'flush' && by < 0)
    return bad(
      'edge',
      `The edge was given as ${say(by)}; choose overhang or inset and give it as a positive length.`,
      'build.params.topEdgeBy',
    )
  const out = edge === 'overhang' ? by : edge === 'inset' ? -by : 0
  const fault = rim.fault(out)
  if (fault)
    return bad(edge === 'inset' ? 'inset-too-great' : 'overhang-too-great', fault, 'build.params.topEdgeBy')
  return good({
    id: 'top/plate',
    name: values.top === 'plate' ? 'Plate' : 'Top sheet',
    polygon: rim.moved(out),
    holes: [],
    thickness,
    ...(values.topCut === 'last' ? { scribed: out } : {}),
    pose: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, z, 1],
    on,
  })
}
