import { sawFor } from '../parts/demand.ts'
import type { Part } from '../plan-shapes.ts'
import { roundLength } from '../reading/show.ts'
import type { Result } from '../result.ts'
import { bad, good } from '../result.ts'
import { isRound, type Section, turnOf } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { boxOf } from './box.ts'
import { beyondPrinted, lyingPart } from './ends.ts'
import { holdsCut, pieceHolding, reaches } from './hold.ts'
import { mirrored, shortestEdge } from './lying.ts'
import { notHeld, pastLimit, pastStop } from './refusals.ts'
import { type EndCut, waysOf } from './ways.ts'

/**
 * The cut that splits a blank into two single miters: the one at the stop, its long side at the fence so that its stop is
 * its printed length, and the one behind the blade. Refused: the blank or the stop past the longest, either half too
 * short to hold, a miter past the limits, and where the rounding of blank and stop would leave the second one off by more
 * than half of what the shop reads.
 */
export function splitOf(one: Part, two: Part, section: Section, shop: Shop, blank: Mm): Result<EndCut> {
  const saw = sawFor(shop, section)
  const box = boxOf(section, shop)
  const holding = pieceHolding(saw)
  if (blank > saw.limits.longestStop + sameLength) return pastStop(one.mark, blank, saw, shop.reading)
  const piece = lyingPart(one, box)
  const round = isRound(section)
  const ways = waysOf(holding.stopSide === 'right' ? mirrored(piece) : piece, {
    saw,
    round,
    within: (swing) => reaches(saw, holding, swing),
    cornerRadius: turnOf(round ? { ...section, width: box.big } : section),
    unrounded: beyondPrinted(one),
    half: 0,
    across: section.width >= section.height ? box.big : box.small,
    prefer: 'fence',
  })
  for (const each of ways) {
    const [cut] = each.cuts()
    if (cut?.method !== 'swing') continue
    // The other way round the long side lies outward, and both stops would be rounded.
    if (Math.abs(roundLength(cut.planned, shop.reading) - cut.planned) > sameLength) continue
    for (const [part, lying] of [
      [one, piece],
      [two, lyingPart(two, box)],
    ] as const) {
      const held = shortestEdge(lying)
      if (!holdsCut(saw, holding, { kept: held, left: held }))
        return notHeld(part.mark, held, saw, shop.reading)
    }
    return good({ ...cut, kind: 'only' })
  }
  const limit = pastLimit(one, saw, holding, shop.reading)
  return limit.ok ? bad('no-split', `${one.mark} and ${two.mark} cannot be split from one blank.`) : limit
}
