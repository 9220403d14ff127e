import type { BenchCut, Plan, Run } from '../../core/plan-shapes.ts'
import { showAngle } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { MeasuredPiece } from './measured-piece.tsx'
import { calledOf } from './say.ts'
import { firstDone, type Station } from './work.ts'

/** First piece check: said at each new set-up, and once more when its first piece lies there to be measured. */
export function FirstPiece(props: {
  readonly station: Station
  readonly cut: BenchCut
  readonly plan: Plan
  readonly products: Run['products']
  readonly shop: Shop
  readonly job: string
  /** How far the stop is set off what is printed, mm. */
  readonly moved: number
}) {
  const { station, cut, plan, products, shop } = props
  const [first] = firstDone(station)
  if (!first && station.cut > 0) return null
  const { product, setUp } = first ?? cut
  const { piece, stage } = calledOf(product, products)
  const part = (plan.cutParts ?? plan.parts).find((one) => one.mark === product.mark)
  // What the head is set to shows on the face that lay on the table, not on one that was turned or raised.
  const onFace = setUp.swing !== 0 && setUp.roll === 0 && setUp.ramp === 0
  const angle = onFace ? showAngle(Math.abs(setUp.swing), shop.reading).text : undefined
  const name = stage === 'blank' ? `blank ${piece}` : piece
  const flat = setUp.roll === 0 && setUp.ramp === 0 && setUp.tilt === 0
  const wanted =
    product.kind === 'blank'
      ? setUp.printed.stop.mm
      : product.kind === 'piece'
        ? part?.printed.length.mm
        : undefined
  const what = product.kind === 'piece' && part && part.shape !== 'square' ? part.printed.primary : 'length'
  return (
    <div className="first-piece" data-check={first ? 'measure' : 'coming'}>
      <p>
        <b>First piece check.</b> {first ? `Measure ${name} now` : `Cut one, then measure ${name}`}
        {product.kind === 'piece' && part && (
          <>
            : <LengthText of={part.printed.length} />{' '}
            {part.shape === 'square'
              ? 'long'
              : part.printed.primary === 'edge'
                ? 'along the edge'
                : 'long point'}
          </>
        )}
        {product.kind === 'blank' && (
          <>
            : <LengthText of={setUp.printed.stop} /> long
          </>
        )}
        {angle && `, the angle ${angle} from square`}.{first ? ' Right? Then cut the rest.' : ''}
      </p>
      {first && flat && wanted !== undefined && (
        <MeasuredPiece
          key={first.done}
          job={props.job}
          cut={first}
          wanted={wanted}
          what={what}
          moved={props.moved}
          shop={shop}
        />
      )}
    </div>
  )
}
