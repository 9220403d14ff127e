import type { Mm } from '../core/units.ts'

/** Room for the check bars at the foot of a page that is at full size. */
export const barsHigh: Mm = 20

/** Bars of 100 mm and 4 in: what is printed smaller or larger than it says shows here. */
export function Bars({ note = '' }: { readonly note?: string }) {
  const bar = (long: Mm, step: Mm, y: Mm) =>
    `M1 ${y}H${1 + long}` +
    Array.from(
      { length: Math.round(long / step) + 1 },
      (_, k) => `M${1 + k * step} ${y - (k % 5 === 0 ? 3 : 2)}V${y}`,
    ).join('')
  return (
    <svg
      className="bars"
      role="img"
      aria-label="Check bars of 100 mm and 4 in"
      viewBox={`0 0 150 ${barsHigh}`}
      style={{ width: '150mm', height: `${barsHigh}mm` }}
    >
      <path d={bar(100, 10, 8)} />
      <path d={bar(4 * 25.4, 25.4 / 4, 17)} />
      <text x={106} y={8}>
        100 mm
      </text>
      <text x={106} y={17}>
        4 in{note}
      </text>
    </svg>
  )
}

/** Said at the foot of every page that is at full size. */
export const barsFoot = 'At 100 %: measure a bar first.'
