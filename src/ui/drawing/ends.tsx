import type { Part } from '../../core/plan-shapes.ts'

const wide = 72
const high = 24

/** How far each end leans in the picture, px; steeper ends lean more, but the picture stays a picture. */
const lean = (slope: number): number => Math.max(-24, Math.min(24, slope * high))

/**
 * The little picture of a part's ends: the side on which the miters show, A end left. Ends in planes at right
 * angles cannot both lie in one picture: the second is drawn as a quarter turn, dashed.
 */
export function EndsPicture({ slopes }: { slopes: Part['slopes'] }) {
  const [b, a] = slopes
  const inPlan = Math.max(Math.abs(b.p), Math.abs(a.p)) >= Math.max(Math.abs(b.q), Math.abs(a.q))
  const of = (slope: { p: number; q: number }) => (inPlan ? slope.p : slope.q)
  const crossed = (slope: { p: number; q: number }) => (inPlan ? slope.q : slope.p) !== 0
  // y grows downward on the screen: the upper edge is the +y (or +z) one.
  const left = lean(of(a)) / 2
  const right = lean(of(b)) / 2
  const x0 = 14
  const x1 = wide - 14
  return (
    <svg
      className="ends-picture"
      viewBox={`0 0 ${wide} ${high + 4}`}
      width={wide}
      height={high + 4}
      aria-hidden="true"
    >
      <path d={`M${x0 + left} 2L${x1 + right} 2L${x1 - right} ${high + 2}L${x0 - left} ${high + 2}Z`} />
      {crossed(a) && <path className="crossed" d={`M${x0 + 6} 2V${high + 2}`} />}
      {crossed(b) && <path className="crossed" d={`M${x1 - 6} 2V${high + 2}`} />}
    </svg>
  )
}
