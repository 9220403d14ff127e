import type { LandedLines } from './landed.ts'
import type { MarkAt } from './marks.ts'
import type { Seen } from './shapes.ts'
import { linesOf, type Place, pathOf } from './sheet.ts'

interface Drawn {
  readonly seen: Seen
  readonly place: Place
  readonly chosen?: boolean
}

/** The area of a solid: what is tapped, and what shows which part is chosen. */
export function ShapeArea(props: Drawn & { readonly onChoose?: (() => void) | undefined }) {
  const { seen, place, chosen } = props
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the parts table beside it has a button for each part
    <g className={`shape ${seen.kind}${chosen ? ' chosen' : ''}`} onClick={props.onChoose}>
      <path className="fill" d={pathOf(place, seen.outline)} />
    </g>
  )
}

/** The visible edges of solids that are drawn alike, as one line; `open`, as plates that would hide the frame, their outline alone. */
function Lines({ alike, place, className }: { alike: readonly Seen[]; place: Place; className: string }) {
  const edges = className.endsWith(' open') ? [] : alike.flatMap((seen) => seen.edges)
  return (
    <g className={className}>
      {edges.length > 0 && <path className="edges" d={linesOf(place, edges)} />}
      <path
        className="outline"
        d={linesOf(
          place,
          alike.flatMap(({ rim }) => rim),
        )}
      />
    </g>
  )
}

/** Marks in their places. Taps go through to the part under them; only a plate's own: the one on top is a line alone. */
export function Marks(props: {
  readonly marks: readonly MarkAt[]
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
}) {
  return props.marks.map(({ id, mark, plate, at: [x, y] }) => (
    // biome-ignore lint/a11y/noStaticElementInteractions: the lists beside it have a button for each part
    <g key={id} className={plate ? 'mark-at plate' : 'mark-at'} onClick={() => props.onChoose(mark)}>
      {plate && <circle cx={x} cy={y} r={22} />}
      <text
        className={mark === props.chosen ? 'mark-text chosen' : 'mark-text'}
        x={x}
        y={y}
        dominantBaseline="central"
      >
        {mark}
      </text>
    </g>
  ))
}

/** Where parts land on others, dashed. */
export function LandedMarks(props: {
  readonly landed: readonly LandedLines[]
  readonly place: Place
  readonly chosen: (id: string) => boolean
}) {
  const lines = (chosen: boolean) =>
    props.landed.filter(({ on }) => props.chosen(on) === chosen).flatMap((one) => one.lines)
  const [others, own] = [lines(false), lines(true)]
  return (
    <>
      {others.length > 0 && <path className="landed" d={linesOf(props.place, others)} />}
      {own.length > 0 && <path className="landed chosen" d={linesOf(props.place, own)} />}
    </>
  )
}

/** A whole picture: every area, and over them every line that is seen. */
export function Shapes(props: {
  readonly seen: readonly Seen[]
  readonly place: Place
  readonly open?: (one: Seen) => boolean
  readonly chosen?: (one: Seen) => boolean
  readonly onChoose?: (one: Seen) => (() => void) | undefined
  /** Lines alone, while all of them move: nothing can be tapped then. */
  readonly moving?: boolean
}) {
  const { seen, place, open = () => false, chosen = () => false } = props
  const alike = new Map<string, Seen[]>()
  for (const one of seen) {
    const className = `lines ${one.kind}${chosen(one) ? ' chosen' : ''}${open(one) ? ' open' : ''}`
    const some = alike.get(className)
    if (some) some.push(one)
    else alike.set(className, [one])
  }
  // The chosen part's lines last: over those that they run along with.
  const inOrder = [...alike].sort(([a], [b]) => Number(a.includes('chosen')) - Number(b.includes('chosen')))
  return (
    <>
      {(props.moving ? [] : seen)
        .filter((one) => !open(one))
        .map((one) => (
          <ShapeArea
            key={one.key}
            seen={one}
            place={place}
            chosen={chosen(one)}
            onChoose={props.onChoose?.(one)}
          />
        ))}
      {inOrder.map(([className, some]) => (
        <Lines key={className} className={className} alike={some} place={place} />
      ))}
    </>
  )
}
