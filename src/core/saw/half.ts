import { isRound, type Section, sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { stepsNearest, toDeg } from '../units.ts'
import { type Box, boxOf } from './box.ts'
import { extentOf, isPlain, type Lying, turned } from './lying.ts'

/**
 * Key of a half, a piece with one end square and the other cut: what a fact names it by. Tip to tip in whole steps, the
 * angle from square, the nominal side that the cut crosses; for a compound end also where it leans, in degrees about
 * the axis from the greater side on, as the piece can be turned and not as it can be mirrored.
 */
export function halfKey(section: Section, kept: Lying, stopSide: 'left' | 'right', shop: Shop): string {
  const box = boxOf(section, shop)
  const { p, q } = kept.trail
  const round = isRound(section)
  const across = Math.abs(kept.depth - box.big) <= sameLength ? 'big' : 'small'
  const angle = String(+toDeg(Math.atan(Math.hypot(p, q))).toFixed(6))
  const plain = `${sectionKey(section)} | half ${stepsNearest(extentOf(kept))} ${angle} `
  if (round) return `${plain}big`
  return isPlain(kept.trail) ? `${plain}${across}` : `${plain}leans ${leanOf(kept, box, stopSide)}`
}

/** Thousandths of a degree, over the turnings that the section allows. With the stop at the right the frame is mirrored. */
function leanOf(kept: Lying, { big, small }: Box, stopSide: 'left' | 'right'): string {
  const even = big - small <= sameLength
  const { trail } = even || kept.depth >= kept.height ? kept : turned(kept, 'quarter+')
  const lean = toDeg(Math.atan2(trail.q, trail.p))
  const turn = even ? 90_000 : 180_000
  const thousandths = Math.round((stopSide === 'left' ? lean : -lean) * 1000)
  return String(((thousandths % turn) + turn) % turn)
}
