import { useMemo } from 'react'
import type { Plan } from '../../core/plan-shapes.ts'
import { type SheetDrawing, sheetDrawing } from '../../core/plates/sheet-drawing.ts'
import { svgOf } from '../../core/plates/svg.ts'
import type { Reading } from '../../core/shop.ts'
import { MarkingList } from './marking-list.tsx'
import { PlateDrawing } from './plate-drawing.tsx'

/** A plate as it is when it is cut, by its mark; absent where no plate has it. */
function drawingOf({ plates, frame, name }: Plan, mark: string): SheetDrawing | undefined {
  const id = plates.find((plate) => plate.mark === mark)?.id
  const plate = frame.plates.find((one) => one.id === id)
  return plate && sheetDrawing(plate, `${name} ${mark}`, { kerf: 0 })
}

/** The drawing of one plate: its outline with its corners numbered, its holes, and the size of each. */
export function PlatePicture(props: {
  readonly plan: Plan
  readonly mark: string
  readonly reading: Reading
}) {
  const { plan, mark, reading } = props
  const drawing = useMemo(() => drawingOf(plan, mark), [plan, mark])
  const part = plan.plates.find((plate) => plate.mark === mark)
  if (!drawing || !part) return null
  return (
    <div className="plate-picture">
      <p>
        <span className="mark">{mark}</span> {part.name}, {part.text}
      </p>
      <PlateDrawing drawing={drawing} />
      <MarkingList marking={drawing.marking} reading={reading} />
    </div>
  )
}

/** The same as a file, full size. */
export function plateSvg(plan: Plan, mark: string): string {
  const drawing = drawingOf(plan, mark)
  if (!drawing) throw new Error(`no plate is marked ${mark}`)
  return svgOf(drawing)
}
