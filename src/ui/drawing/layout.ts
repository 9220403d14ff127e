import type { Shown } from '../../core/plan-shapes.ts'
import { fractionOf } from '../../core/reading/show.ts'
import type { Dimension } from './dimensions.ts'
import type { Place } from './sheet.ts'
import type { Extent } from './view.ts'

/** Room that one row of dimension text takes below a view, px. */
export const rowHigh = 46

/** Room that one row takes beside a view, and on a phone, where the drawing needs it, at most: less beside a short number. */
const rowWide = 84
const phone = { upTo: 480, most: 68, least: 44, gap: 10 } as const
const edge = 14

/** Room that a number takes on its line, px: figures, those of a fraction, the unit. */
export function numberWide({ text, unit }: Shown): number {
  const { whole, numerator, denominator } = fractionOf(text)
  const small = Math.max(numerator.length, denominator.length)
  return 12.5 * whole.length + (small > 0 ? 9 * small + 2 : 0) + (unit === 'in' ? 20 : 29)
}

/** A view on the screen: where its millimeters lie, and the box of its picture without the dimension lines. */
export interface Laid {
  readonly place: Place
  readonly box: {
    readonly left: number
    readonly right: number
    readonly top: number
    readonly bottom: number
  }
  /** How far the line of each row stands from the picture, px, the nearest first. */
  readonly rows: { readonly left: readonly number[]; readonly right: readonly number[] }
}

export interface Layout {
  readonly plan: Laid
  readonly front: Laid
  readonly width: number
  readonly height: number
}

/** Row of each dimension, 0 nearest to the picture: the shorter within the longer. */
export function rowsOf(dimensions: readonly Dimension[], view: Dimension['view'], side: Dimension['side']) {
  return dimensions
    .filter((one) => one.view === view && one.side === side)
    .sort((a, b) => a.to - a.from - (b.to - b.from))
}

function margins(
  dimensions: readonly Dimension[],
  view: Dimension['view'],
  wideOf: (one: Dimension) => number,
) {
  const beside = (side: 'left' | 'right') => {
    let wide = 0
    const rows = rowsOf(dimensions, view, side).map((one) => {
      wide += wideOf(one)
      return wide - wideOf(one) / 2
    })
    return { rows, wide }
  }
  const [left, right] = [beside('left'), beside('right')]
  return {
    left: edge + left.wide,
    right: edge + right.wide,
    top: edge + 8,
    bottom: edge + rowsOf(dimensions, view, 'bottom').length * rowHigh,
    rows: { left: left.rows, right: right.rows },
  }
}

/**
 * Puts plan and elevation on a sheet of the given width, both at one scale, so that they can be compared: side by
 * side where there is room and the elevation is not a mere strip, else the plan above. `number` is the room, px, that
 * the number of a dimension takes.
 */
export function layOut(
  plan: Extent,
  front: Extent,
  dimensions: readonly Dimension[],
  width: number,
  mostHigh: number,
  number: (one: Dimension) => number,
): Layout {
  const size = (extent: Extent) => ({
    wide: Math.max(extent.right - extent.left, 1),
    high: Math.max(extent.top - extent.bottom, 1),
  })
  const p = size(plan)
  const f = size(front)
  const wideOf = (one: Dimension) =>
    width < phone.upTo ? Math.max(phone.least, Math.min(phone.most, number(one) + phone.gap)) : rowWide
  const pm = margins(dimensions, 'plan', wideOf)
  const fm = margins(dimensions, 'front', wideOf)
  const beside = width >= 640 && f.high > p.high / 4
  const across = { plan: pm.left + pm.right, front: fm.left + fm.right }
  const down = { plan: pm.top + pm.bottom, front: fm.top + fm.bottom }
  const scale = beside
    ? Math.min(
        (width - across.plan - across.front) / (p.wide + f.wide),
        (mostHigh - down.plan) / p.high,
        (mostHigh - down.front) / f.high,
      )
    : Math.min(
        (width - across.plan) / p.wide,
        (width - across.front) / f.wide,
        (mostHigh * (beside ? 1 : 1.35) - down.plan - down.front) / (p.high + f.high),
      )
  const s = Math.max(scale, 1e-3)
  const laid = (extent: Extent, { rows }: typeof pm, left: number, top: number): Laid => {
    const { wide, high } = size(extent)
    return {
      place: { scale: s, x: left - extent.left * s, y: top + extent.top * s },
      box: { left, right: left + wide * s, top, bottom: top + high * s },
      rows,
    }
  }
  if (beside) {
    const free = width - across.plan - across.front - (p.wide + f.wide) * s
    const height = Math.max(p.high * s + down.plan, f.high * s + down.front)
    const first = laid(plan, pm, pm.left + free / 3, (height - p.high * s - down.plan) / 2 + pm.top)
    const second = laid(
      front,
      fm,
      first.box.right + pm.right + free / 3 + fm.left,
      height - fm.bottom - f.high * s,
    )
    return { plan: first, front: second, width, height }
  }
  const first = laid(plan, pm, pm.left + (width - across.plan - p.wide * s) / 2, pm.top)
  const below = first.box.bottom + pm.bottom
  // The elevation stands under the plan where it has room, so that one can look from one to the other.
  const under = first.box.left + (plan.left < front.left ? (front.left - plan.left) * s : 0)
  const left = Math.max(fm.left, Math.min(under, width - fm.right - f.wide * s))
  const second = laid(front, fm, left, below + fm.top)
  return { plan: first, front: second, width, height: second.box.bottom + fm.bottom }
}
