import { useMemo } from 'react'
import { partDrawings } from '../../core/parts/part-drawing.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import type { Reading } from '../../core/shop.ts'
import { partSketch, titleOf } from './part-sketch.ts'
import { sketchSvg } from './sketch.ts'
import { SketchPicture } from './sketch-picture.tsx'
import { useWidth } from './width.ts'

/** Px to a mm of the drawing: its smallest text is then as large as the words of the screen. */
const perMm = 3.8

/** Width of the drawing as a file, mm: with its border it goes on either paper. */
const fileWide = 190

/** The drawing of one part: once for each way in which pieces of it are marked out. */
export function PartPicture(props: {
  readonly plan: Plan
  readonly mark: string
  readonly reading: Reading
}) {
  const { plan, mark, reading } = props
  const [box, width] = useWidth<HTMLDivElement>(760)
  const drawings = useMemo(() => partDrawings(plan, mark), [plan, mark])
  return (
    <div className="drawing-box part-drawings" ref={box}>
      {drawings.map((drawing) => (
        <SketchPicture
          key={drawing.number}
          pieces={partSketch(drawing, reading, width / perMm)}
          perMm={perMm}
          unit="px"
          label={`Drawing of ${titleOf(drawing)}, to scale: four faces with their angles and layout marks`}
        />
      ))}
    </div>
  )
}

/** The same as a file. */
export const partSvg = (plan: Plan, mark: string, reading: Reading): string =>
  sketchSvg(
    `${plan.name} ${mark}`,
    partDrawings(plan, mark).flatMap((drawing) => partSketch(drawing, reading, fileWide)),
  )
