import { carriedOf } from '../parts/demand.ts'
import type { Section } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import type { Mm } from '../units.ts'

/** Outside of a section as it is, mm: the greater and the lesser side. */
export interface Box {
  readonly big: Mm
  readonly small: Mm
}

const sides = ({ width, height }: { readonly width: Mm; readonly height: Mm }): Box => ({
  big: Math.max(width, height),
  small: Math.min(width, height),
})

/**
 * The section as measured in this delivery, else as listed; `big` is the side that lies across the stick, off the fence
 * while it is cut to blanks. A square section measured unequal keeps its sides as they lie there.
 */
export function boxOf(section: Section, shop: Shop): Box {
  const carried = carriedOf(shop, section)
  if (!carried?.measured) return sides(section)
  const { width, height } = carried.measured
  return carried.section.width >= carried.section.height
    ? { big: width, small: height }
    : { big: height, small: width }
}
