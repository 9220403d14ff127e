import { lazy, Suspense } from 'react'
import type { Plan } from '../../core/plan-shapes.ts'
import type { Reading } from '../../core/shop.ts'
import type { Resize } from '../drawing/drag.ts'
import type { TypedLength } from '../drawing/fields.ts'
import { FrameDrawing } from '../drawing/frame-drawing.tsx'
import { frameSvg } from '../drawing/frame-sketch.ts'
import { ListDrawing } from '../drawing/list-drawing.tsx'
import { fileName, saveFile } from '../fields/files.ts'
import { PlatePicture, plateSvg } from './plate-picture.tsx'

const Turnable = lazy(() => import('../drawing/turnable.tsx').then(({ Turnable }) => ({ default: Turnable })))

const PartPicture = lazy(() =>
  import('../drawing/part-picture.tsx').then(({ PartPicture }) => ({ default: PartPicture })),
)

/** Plan and elevation, the frame turned round, or the chosen part by itself. */
export type Look = 'plan' | 'turned' | 'part'

/** The drawing of a plan; a list of pieces where nothing is joined. */
export function Picture(props: {
  readonly plan: Plan
  readonly reading: Reading
  readonly typed: readonly TypedLength[]
  readonly chosen: string | null
  readonly look: Look
  readonly onLook: (look: Look) => void
  readonly onChoose: (mark: string) => void
  readonly onField: (name: string) => void
  readonly resize: Resize
}) {
  const { plan, reading, chosen, onLook } = props
  const joined = plan.frame.joints.length > 0
  const part = plan.parts.find(({ mark }) => mark === chosen)
  const plate = plan.plates.find(({ mark }) => mark === chosen)
  const own = part ?? plate
  const look = props.look === 'part' && !own ? 'plan' : props.look
  const save = async () => {
    const give = (name: string, svg: string) => saveFile(fileName(name, 'svg'), svg, 'image/svg+xml')
    if (look !== 'part' || !own) return give(plan.name, frameSvg(plan, reading, props.typed))
    if (!part) return give(`${plan.name} ${own.mark}`, plateSvg(plan, own.mark))
    const { partSvg } = await import('../drawing/part-picture.tsx')
    give(`${plan.name} ${part.mark}`, partSvg(plan, part.mark, reading))
  }
  return (
    <div className="picture">
      <Suspense fallback={<p className="dim">Loading …</p>}>
        {look === 'part' && part ? (
          <PartPicture plan={plan} mark={part.mark} reading={reading} />
        ) : look === 'part' && plate ? (
          <PlatePicture plan={plan} mark={plate.mark} reading={reading} />
        ) : !joined ? (
          <ListDrawing {...props} />
        ) : look === 'turned' ? (
          <Turnable {...props} />
        ) : (
          <FrameDrawing {...props} />
        )}
      </Suspense>
      <div className="picture-foot">
        <p className="dim">
          {look === 'part' && !part ? aboutPlate : aboutLook(look, joined, reading)}
          {look !== 'part' && plan.landings.length > 0 && ' Dashed: where one part lands on another.'}
        </p>
        <div className="buttons">
          {look === 'part' ? (
            <button type="button" onClick={() => onLook('plan')}>
              {joined ? 'The whole frame' : 'All pieces'}
            </button>
          ) : (
            own && (
              <button type="button" onClick={() => onLook('part')}>
                Drawing of {own.mark}
              </button>
            )
          )}
          {joined && look !== 'part' && (
            <button type="button" onClick={() => onLook(look === 'turned' ? 'plan' : 'turned')}>
              {look === 'turned' ? 'Plan and elevation' : 'Turn it round'}
            </button>
          )}
          {(joined || look === 'part') && (
            <button type="button" onClick={() => void save()}>
              Save the drawing
            </button>
          )}
        </div>
      </div>
    </div>
  )
}

const aboutPlate =
  'To scale, as it lies on the sheet. Lines for the torch and files for a table stand under Marking out plates.'

function aboutLook(look: Look, joined: boolean, reading: Reading): string {
  if (look === 'part')
    return 'To scale; what a break leaves out is plain tube. Paper prints one for every part.'
  if (!joined) return 'Each part once, to scale. Tap a part to see its numbers.'
  if (look === 'turned')
    return 'To scale. Drag it, or turn it with the arrow keys; tap a part or its mark to see its numbers.'
  const units = reading.kind === 'mm' ? 'mm' : 'inches'
  return `Plan and elevation to scale, in ${units}. Tap a dimension to type it, or drag its number; tap a part to see its numbers.`
}
