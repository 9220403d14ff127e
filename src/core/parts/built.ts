import type { Frame } from '../frame/frame.ts'
import type { BuiltSize, Part } from '../plan-shapes.ts'
import { showLength } from '../reading/show.ts'
import type { Shop } from '../shop.ts'

/** What the finished thing really measures when every part is cut to its rounded length. */
export function builtSizes(frame: Frame, parts: readonly Part[], shop: Shop): BuiltSize[] {
  const printed = new Map(
    parts.flatMap((part) => part.members.map((id) => [id, part.printed.length.mm] as const)),
  )
  return frame.measures.map((measure) => {
    const built = measure.terms.reduce(
      (sum, { member, factor }) => sum + factor * (printed.get(member) ?? 0),
      measure.offset,
    )
    return {
      name: measure.name,
      asked: measure.asked,
      exact: measure.mm,
      built,
      printed: { exact: showLength(measure.mm, shop.reading), built: showLength(built, shop.reading) },
    }
  })
}
