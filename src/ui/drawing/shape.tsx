import type { Seen } from './shapes.ts'
import { lineOf, type Place, pathOf } from './sheet.ts'

/** One solid as it is seen: filled, so that it hides what is behind it, with its visible edges. */
export function Shape(props: {
  readonly seen: Seen
  readonly place: Place
  readonly chosen?: boolean
  /** Only its outline, as a plate that would hide the frame under it. */
  readonly open?: boolean
  readonly onChoose?: (() => void) | undefined
}) {
  const { seen, place } = props
  const outline = pathOf(place, seen.outline)
  const kind = `shape ${seen.kind}${props.chosen ? ' chosen' : ''}${props.open ? ' open' : ''}`
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the parts table beside it has a button for each part
    <g className={kind} onClick={props.onChoose}>
      <path className="fill" d={outline} />
      {seen.lines ? (
        <path
          className={props.open ? 'outline' : 'edges'}
          d={seen.lines.map((line) => lineOf(place, line)).join('')}
        />
      ) : (
        <>
          <path className="edges" d={seen.faces.map((face) => pathOf(place, face)).join('')} />
          <path className="outline" d={outline} />
        </>
      )}
    </g>
  )
}
