import { carriedOf } from '../parts/demand.ts'
import type { Section } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** Outside of a section as it is, mm: the greater and the lesser side. A square one has both equal. */
export interface Box {
  readonly big: Mm
  readonly small: Mm
}

const sides = ({ width, height }: { readonly width: Mm; readonly height: Mm }): Box => ({
  big: Math.max(width, height),
  small: Math.min(width, height),
})

export const isEven = ({ width, height }: Section): boolean => Math.abs(width - height) <= sameLength

/**
 * The section as measured in this delivery, else as listed. Of a square or round section the measured width counts
 * for both sides: once a blank is cut, nobody can tell its sides apart.
 */
export function boxOf(section: Section, shop: Shop): Box {
  const carried = carriedOf(shop, section)
  if (!carried?.measured) return sides(section)
  const { width, height } = carried.measured
  if (isEven(section)) return { big: width, small: width }
  return carried.section.width >= carried.section.height
    ? { big: width, small: height }
    : { big: height, small: width }
}
