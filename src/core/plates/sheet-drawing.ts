import type { Plate } from '../frame/frame.ts'
import type { Point, Polygon } from '../geometry/polygon.ts'
import type { Mm } from '../units.ts'
import { cutLine, type GuideLine, type GuideSide, guideLines } from './cut-line.ts'
import { type MarkingOut, markingOut } from './marking-out.ts'

/** What is given for cutting: 0 kerf for a file that the machine compensates itself. */
export interface Cutting {
  readonly kerf: Mm
  readonly guide?: { readonly offset: Mm; readonly side: GuideSide }
}

/** A plate with the lines to cut it by, as it lies on the sheet, ready for DXF and SVG. Lengths mm, y up. */
export interface SheetDrawing {
  readonly name: string
  readonly thickness: Mm
  readonly marking: MarkingOut
  readonly part: Ring
  /** The middle of the kerf; absent for a kerf of 0. */
  readonly cut?: Ring
  readonly guides: readonly GuideLine[]
  /** As they are in the finished plate: holes are drilled. */
  readonly holes: readonly { readonly at: Point; readonly diameter: Mm }[]
  readonly slots: MarkingOut['slots']
}

export type Ring = { readonly polygon: Polygon } | { readonly at: Point; readonly radius: Mm }

export function sheetDrawing(plate: Plate, name: string, { kerf, guide }: Cutting): SheetDrawing {
  const marking = markingOut(plate)
  const { circle, outline, holes, slots } = marking
  return {
    name,
    thickness: plate.thickness,
    marking,
    part: circle ?? { polygon: outline },
    ...(kerf > 0
      ? {
          cut: circle
            ? { at: circle.at, radius: circle.radius + kerf / 2 }
            : { polygon: cutLine(outline, kerf) },
        }
      : {}),
    // A straight edge guides no round.
    guides: guide && !circle ? guideLines(outline, guide.offset, kerf, guide.side) : [],
    holes,
    slots,
  }
}

/** Everything that is drawn, from the lower left to the upper right. */
export function spanOf({ part, cut, guides }: SheetDrawing): readonly [Point, Point] {
  const points = [
    ...ringPoints(part),
    ...(cut ? ringPoints(cut) : []),
    ...guides.flatMap(({ from, to }) => [from, to]),
  ]
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
  return [
    [Math.min(...xs), Math.min(...ys)],
    [Math.max(...xs), Math.max(...ys)],
  ]
}

const ringPoints = (ring: Ring): readonly Point[] =>
  'polygon' in ring
    ? ring.polygon
    : [
        [ring.at[0] - ring.radius, ring.at[1] - ring.radius],
        [ring.at[0] + ring.radius, ring.at[1] + ring.radius],
      ]
