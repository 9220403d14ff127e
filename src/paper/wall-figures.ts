import type { SetUp } from '../core/plan-shapes.ts'
import type { Mm } from '../core/units.ts'
import { bodyWide, lineHigh, type PageSize, stopFont, textFont } from './size.ts'

// The great figures of a set-up on the wall cut sheet, and the room they take.

/** What is set beside miter and stop for a compound end: as great as they are, on a line of its own. */
export function thirdFigure({
  tilt,
  roll,
  ramp,
  printed,
}: SetUp): { label: string; text: string } | undefined {
  const degrees = (angle: number) => `${+Math.abs(angle).toFixed(1)}°`
  if (tilt !== 0) return { label: 'Bevel', text: printed.bevel?.text ?? degrees(tilt) }
  if (roll !== 0) return { label: 'Turned', text: degrees(roll) }
  return ramp === 0 ? undefined : { label: 'Wedge', text: degrees(ramp) }
}

/** Width of a great figure at the broadest that system faces set it. */
const greatWide = (text: string): Mm =>
  [...text].reduce((sum, sign) => sum + stopFont * (/\d/.test(sign) ? 0.7 : 0.5), 0)

const unitWide = (unit: string): Mm => 2 + textFont * 0.7 * unit.length

/** Left of the great figures: the number of the set-up, and the gaps. */
const besideFigures: Mm = 34

/** Whether miter and stop stand on one line with their fractions behind the whole number. */
export const inLine = ({ printed: { miter, stop } }: SetUp, page: PageSize): boolean =>
  besideFigures + greatWide(miter.text) + greatWide(stop.text) + unitWide(stop.unit) <= bodyWide(page)

/** Height of the great figures; an inch fraction that does not fit on the line stands two figures high. */
export const figuresHigh = (setUp: SetUp, page: PageSize): Mm => {
  const { stop, miter } = setUp.printed
  const stacked = !inLine(setUp, page) && `${stop.text}${miter.text}`.includes('/')
  const pair = stacked ? stopFont * 2.2 : stopFont * 1.2
  return lineHigh + pair + (thirdFigure(setUp) ? lineHigh + stopFont * 1.2 : 0)
}
