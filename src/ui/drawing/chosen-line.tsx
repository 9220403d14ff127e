import type { Part } from '../../core/plan-shapes.ts'
import { LengthText } from '../fields/length-text.tsx'
import { DimensionLine } from './dimension-line.tsx'
import type { Layout } from './layout.ts'
import { partLine } from './marks.ts'
import type { Seen } from './shapes.ts'

interface Chosen {
  readonly part: Part
  readonly seen: { readonly plan: readonly Seen[]; readonly front: readonly Seen[] }
  readonly layout: Layout
}

function lineOf({ part, seen, layout }: Chosen) {
  return partLine(part, seen.plan, layout.plan) ?? partLine(part, seen.front, layout.front)
}

/** The chosen part's own dimension line. */
export function ChosenLine(props: Chosen) {
  const line = lineOf(props)
  return line && <DimensionLine className="of-chosen" from={line.from} to={line.to} />
}

/** Its mark and length on that line. */
export function ChosenLabel(props: Chosen) {
  const line = lineOf(props)
  if (!line) return null
  const { mark, printed } = props.part
  return (
    <span
      className="dimension-label of-chosen"
      style={{
        // Never out of the page, which would then move sideways.
        left: `clamp(3.5em, ${(line.from[0] + line.to[0]) / 2}px, 100% - 3.5em)`,
        top: `${(line.from[1] + line.to[1]) / 2}px`,
      }}
    >
      <span className="mark">{mark}</span> <LengthText of={printed.length} />
    </span>
  )
}
