import type { Point } from '../../core/geometry/polygon.ts'

const tick = 7

/** A dimension line between two places on the screen, with the slanted ticks of a shop drawing. */
export function DimensionLine({ from, to, className }: { from: Point; to: Point; className: string }) {
  const mark = ([x, y]: Point) => `M${x - tick} ${y + tick}L${x + tick} ${y - tick}`
  return (
    <path
      className={`dimension ${className}`}
      d={`M${from[0]} ${from[1]}L${to[0]} ${to[1]}${mark(from)}${mark(to)}`}
    />
  )
}

/** A thin line from the thing measured to its dimension line. */
export function WitnessLine({ from, to }: { from: Point; to: Point }) {
  return <path className="witness" d={`M${from[0]} ${from[1]}L${to[0]} ${to[1]}`} />
}
