import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'

// Sizes on paper, mm. Nothing is ever scaled to fit: what does not fit goes to the next page.

export interface PageSize {
  readonly name: Shop['paper']
  readonly wide: Mm
  readonly high: Mm
}

export const pageSizes: Readonly<Record<Shop['paper'], PageSize>> = {
  Letter: { name: 'Letter', wide: 215.9, high: 279.4 },
  A4: { name: 'A4', wide: 210, high: 297 },
}

/** White border that every printer leaves. */
export const border: Mm = 10

/** Font sizes that give figures of a height: system faces draw a digit at least 0.7 of the font high. */
const fontFor = (figure: Mm): Mm => figure / 0.7

/** Stop and angle, read from 2 m: figures at least 12 mm high. */
export const stopFont = fontFor(12.3)
/** Marks, at least 8 mm. */
export const markFont = fontFor(8.2)
/** All other text, at least 5 mm. */
export const textFont = fontFor(5.1)

export const lineHigh: Mm = 9
export const headerHigh: Mm = 13
export const footerHigh: Mm = 11

/** Room between header and footer. */
export const bodyHigh = (page: PageSize): Mm => page.high - 2 * border - headerHigh - footerHigh
export const bodyWide = (page: PageSize): Mm => page.wide - 2 * border

/** Lines that a sentence takes in a width, at the broadest that system faces set it. */
export function linesOf(text: string, wide: Mm, face: 'plain' | 'bold' = 'plain'): number {
  const perLine = Math.max(1, Math.floor(wide / (textFont * (face === 'bold' ? 0.68 : 0.6))))
  let lines = 1
  let used = 0
  for (const word of text.split(/\s+/)) {
    const length = Math.max(1, word.length)
    if (used > 0 && used + 1 + length > perLine) {
      lines += 1
      used = length
    } else used += (used > 0 ? 1 : 0) + length
    while (used > perLine) {
      lines += 1
      used -= perLine
    }
  }
  return lines
}
