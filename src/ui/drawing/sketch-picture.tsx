import { type Item, type Sketch, stacked, textSize } from './sketch.ts'

/** A drawing of `sketch.ts`, its pieces one under another, on the screen or on a sheet of paper. */
export function SketchPicture(props: {
  readonly pieces: readonly Sketch[]
  /** Size of a mm of it; 1 mm on paper. */
  readonly perMm: number
  readonly unit: 'px' | 'mm'
  readonly label: string
}) {
  const { pieces, perMm, unit } = props
  const { high, tops } = stacked(pieces)
  const wide = Math.max(...pieces.map((piece) => piece.wide))
  return (
    <svg
      className={unit === 'mm' ? 'sketch on-paper' : 'sketch'}
      viewBox={`0 0 ${wide} ${high}`}
      style={{ width: `${wide * perMm}${unit}`, height: `${high * perMm}${unit}` }}
      role="img"
      aria-label={props.label}
    >
      {pieces.map(({ items }, piece) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: drawn in order, and never moved
        <g key={piece} transform={`translate(0 ${tops[piece]})`}>
          {items.map((item, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: drawn in order, and never moved
            <Drawn key={at} item={item} />
          ))}
        </g>
      ))}
    </svg>
  )
}

function Drawn({ item }: { readonly item: Item }) {
  if (item.kind !== 'text') return <path className={item.kind} d={item.d} />
  const { x, y, text, anchor = 'start', size = textSize, bold, turned } = item
  return (
    <text
      x={x}
      y={y}
      fontSize={size}
      textAnchor={anchor}
      {...(bold ? { fontWeight: 700 } : {})}
      {...(turned ? { transform: `rotate(-90 ${x} ${y})` } : {})}
    >
      {text}
    </text>
  )
}
