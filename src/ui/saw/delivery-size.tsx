import { carriedOf } from '../../core/parts/demand.ts'
import type { Part } from '../../core/plan-shapes.ts'
import { sizeEffects } from '../../core/saw/first-piece.ts'
import type { Shop } from '../../core/shop.ts'
import { sameLength } from '../../core/tolerance.ts'
import { sayFine } from '../words.ts'

/** What the true size of this delivery changes on the part in hand, and what it leaves; nothing where it is as listed. */
export function DeliverySize({ part, shop }: { part: Part; shop: Shop }) {
  const carried = carriedOf(shop, part.section)
  if (!carried?.measured || part.shape === 'square') return null
  const { section, measured } = carried
  // As a stick lies: the greater side off the fence.
  const [listed, real] =
    section.height > section.width ? [section.height, measured.height] : [section.width, measured.width]
  if (Math.abs(real - listed) <= sameLength) return null
  const short = sizeEffects(part, listed, real).find(({ what }) => what === 'short point')!.by
  const size = (mm: number) => sayFine(mm, shop.reading)
  return (
    <p className="dim" data-delivery="">
      This delivery measures {size(real)} where {size(listed)} is listed. A long point at the fence stays as
      it is, a stop with the long side outward is already set for it
      {Math.abs(short) <= sameLength
        ? '.'
        : `, and the short point comes out ${size(Math.abs(short))} ${short < 0 ? 'shorter' : 'longer'}.`}
    </p>
  )
}
