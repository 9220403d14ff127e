import type { Shown } from '../plan-shapes.ts'
import { showLength } from '../reading/show.ts'
import type { Shop } from '../shop.ts'
import type { Mm } from '../units.ts'

/** The one number to set: how the exact stop lies beside it is no business of the person at the saw. */
export function shownStop(exact: Mm, { reading }: Shop): Shown {
  const { mm, text, unit } = showLength(exact, reading)
  return { mm, text, unit }
}
