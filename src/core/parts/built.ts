import type { Frame } from '../frame/frame.ts'
import type { BuiltSize, Part } from '../plan-shapes.ts'
import { showLength } from '../reading/show.ts'
import type { Shop } from '../shop.ts'
import type { Mm } from '../units.ts'

/**
 * What the finished thing really measures when every part is cut to its rounded length. `drawn`: by how much each size,
 * in the order of the measures, is planned larger, since the welds will draw it in; empty: nothing is.
 */
export function builtSizes(
  frame: Frame,
  parts: readonly Part[],
  shop: Shop,
  drawn: readonly Mm[] = [],
): BuiltSize[] {
  const printed = new Map(
    parts.flatMap((part) => part.members.map((id) => [id, part.printed.length.mm] as const)),
  )
  return frame.measures.map((measure, at) => {
    const tacked = measure.terms.reduce(
      (sum, { member, factor }) => sum + factor * (printed.get(member) ?? 0),
      measure.offset,
    )
    const drawnIn = drawn[at] ?? 0
    const built = tacked - drawnIn
    return {
      name: measure.name,
      asked: measure.asked,
      exact: measure.mm,
      built,
      ...(drawnIn === 0 ? {} : { tacked }),
      printed: { exact: showLength(measure.mm, shop.reading), built: showLength(built, shop.reading) },
    }
  })
}
