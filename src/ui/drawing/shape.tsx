import type { LandedLines } from './landed.ts'
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

/** Its visible edges; `open`, as a plate that would hide the frame under it, its outline alone. */
export function ShapeLines({ seen, place, chosen, open }: Drawn & { readonly open?: boolean }) {
  return (
    <g className={`lines ${seen.kind}${chosen ? ' chosen' : ''}${open ? ' open' : ''}`}>
      {!open && <path className="edges" d={linesOf(place, seen.edges)} />}
      <path className="outline" d={linesOf(place, seen.rim)} />
    </g>
  )
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
}) {
  const { seen, place, open = () => false, chosen = () => false } = props
  return (
    <>
      {seen
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
      {seen.map((one) => (
        <ShapeLines key={one.key} seen={one} place={place} chosen={chosen(one)} open={open(one)} />
      ))}
    </>
  )
}
