import type { NestSection, NestStick } from '../core/nest.ts'
import type { Mm } from '../core/units.ts'
import { type Stretch, stretchesOf } from '../ui/drawing/stick-layout.ts'
import { points } from './scaled.ts'

/** Height of a stick as it is drawn. */
export const stickHigh: Mm = 12

/** Names that stand in a piece, the longest that its length on paper has room for. */
function nameIn({ kind, name, mark }: Stretch, long: Mm, drop: string): string {
  const fits = (text: string) => text.length * 4.6 + 1 < long
  const words = kind === 'drop' ? [drop] : [name, mark]
  return words.find(fits) ?? ''
}

/** A stick with its pieces from the leading end on, which lies at the left; to scale along, ends at their true angle along. */
export function StickPicture(props: {
  readonly stick: NestStick
  readonly section: NestSection
  readonly wide: Mm
  /** What is written on what is left over. */
  readonly drop: string
}) {
  const { stick, section, wide } = props
  const scale = (wide - 1) / stick.length
  const x = (mm: Mm) => 0.5 + mm * scale
  const [top, foot] = [0.5, stickHigh - 0.5]
  return (
    <svg
      className="stick-drawn"
      role="img"
      aria-label={`${stick.id}: ${stick.pieces.map(({ piece }) => piece).join(', ')}`}
      viewBox={`0 0 ${wide} ${stickHigh}`}
      style={{ width: `${wide}mm`, height: `${stickHigh}mm` }}
    >
      <rect className="stick-whole" x={0.5} y={top} width={wide - 1} height={foot - top} />
      {stretchesOf(stick, section).map((stretch) => {
        const { kind, name, upper, lower } = stretch
        const [from, to] = [Math.max(upper[0], lower[0]), Math.min(upper[1], lower[1])]
        const text = nameIn(stretch, (to - from) * scale, props.drop)
        return (
          <g key={`${kind} ${name}`}>
            {kind === 'piece' && (
              <polygon
                className="stick-piece"
                points={points([
                  [x(upper[0]), top],
                  [x(upper[1]), top],
                  [x(lower[1]), foot],
                  [x(lower[0]), foot],
                ])}
              />
            )}
            {text && (
              <text x={x((from + to) / 2)} y={stickHigh / 2 + 2.6}>
                {text}
              </text>
            )}
          </g>
        )
      })}
    </svg>
  )
}
