import type { Warning } from '../frame/frame.ts'
import { blankLength, sawFor } from '../parts/demand.ts'
import type { Part } from '../plan-shapes.ts'
import type { Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { cutEnds } from './ends.ts'
import { pastStop } from './refusals.ts'

/** As a stick lies in its nest: the greater side off the fence. */
const lying = (section: Section): Section =>
  section.height > section.width ? { ...section, width: section.height, height: section.width } : section

function firstRefusal(part: Part, shop: Shop): Result<unknown> {
  const blank = blankLength(part, shop)
  const saw = sawFor(shop, part.section)
  if (blank > saw.limits.longestStop + sameLength) return pastStop(part.mark, blank, saw, shop.reading)
  return part.shape === 'square' ? { ok: true, value: part } : cutEnds(part, blank, lying(part.section), shop)
}

/** Parts that the saw of their section cannot cut on a stop, each with a way out: known before there is a nest. */
export function sawWarnings(parts: readonly Part[], shop: Shop): Warning[] {
  return parts.flatMap((part) => {
    const refusal = firstRefusal(part, shop)
    return refusal.ok ? [] : refusal.problems.map(({ code, text }) => ({ code, text, members: part.members }))
  })
}
