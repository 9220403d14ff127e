import { lazy, Suspense, useState } from 'react'
import type { Plan } from '../../core/plan-shapes.ts'
import type { Reading } from '../../core/shop.ts'
import type { TypedLength } from '../drawing/fields.ts'
import { FrameDrawing } from '../drawing/frame-drawing.tsx'
import { frameSvg } from '../drawing/frame-svg.ts'
import { ListDrawing } from '../drawing/list-drawing.tsx'
import { fileName, saveFile } from '../fields/files.ts'

const Turnable = lazy(() => import('../drawing/turnable.tsx').then(({ Turnable }) => ({ default: Turnable })))

/** The drawing of a plan: plan and elevation, or turned; a list of pieces where nothing is joined. */
export function Picture(props: {
  readonly plan: Plan
  readonly reading: Reading
  readonly typed: readonly TypedLength[]
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
  readonly onField: (name: string) => void
}) {
  const [turning, setTurning] = useState(false)
  if (props.plan.frame.joints.length === 0)
    return (
      <div className="picture">
        <ListDrawing {...props} />
      </div>
    )
  return (
    <div className="picture">
      {turning ? (
        <Suspense fallback={<p className="dim">Loading …</p>}>
          <Turnable {...props} />
        </Suspense>
      ) : (
        <FrameDrawing {...props} />
      )}
      <div className="picture-foot">
        <p className="dim">
          {turning
            ? 'To scale. Drag it, or turn it with the keys; tap a part to see its numbers.'
            : `Plan and elevation to scale, in ${props.reading.kind === 'mm' ? 'mm' : 'inches'}. Tap a dimension to change it, a part to see its numbers.`}
        </p>
        <div className="buttons">
          <button type="button" onClick={() => setTurning(!turning)}>
            {turning ? 'Plan and elevation' : 'Turn it round'}
          </button>
          <button
            type="button"
            onClick={() =>
              saveFile(fileName(props.plan.name, 'svg'), frameSvg(props.plan, props.reading), 'image/svg+xml')
            }
          >
            Save the drawing
          </button>
        </div>
      </div>
    </div>
  )
}
