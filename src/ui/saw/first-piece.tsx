import type { BenchCut, Plan, Run, Shown } from '../../core/plan-shapes.ts'
import { showAngle } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { sameSlope } from '../../core/tolerance.ts'
import type { AtCut } from '../drawing/lying.ts'
import { LengthText } from '../fields/length-text.tsx'
import { unitsOf } from '../words.ts'
import { type Along, EdgeToMeasure, edgeOf, sayEdge } from './edge-to-measure.tsx'
import { MeasuredPiece } from './measured-piece.tsx'
import { calledOf } from './say.ts'
import { firstDone, type Station } from './work.ts'

/** What is measured of a piece at this set-up, along which edge, and what it must be. */
interface Wanted {
  readonly what: string
  readonly length: Shown
  readonly along: Along
}

/**
 * A blank and a first end are as long as the stop says, along the fence; a finished piece is what is printed of it. Nothing
 * where the set-up is not flat on the table, or the piece came to the stop with a slanted end and is not finished yet.
 */
function wantedOf({ product, setUp }: BenchCut, plan: Plan, at: AtCut | undefined): Wanted | undefined {
  if (setUp.roll !== 0 || setUp.ramp !== 0 || setUp.tilt !== 0 || !at) return undefined
  const { stop } = setUp.printed
  if (product.kind === 'blank') return { what: 'length', length: stop, along: 'fence' }
  if (product.kind === 'half')
    return Math.abs(at.keep.lead.p) <= sameSlope && Math.abs(at.keep.lead.q) <= sameSlope
      ? { what: 'edge at the fence', length: stop, along: 'fence' }
      : undefined
  const part = (plan.cutParts ?? plan.parts).find((one) => one.mark === product.mark)
  if (!part) return undefined
  const { primary, length } = part.printed
  return { what: part.shape === 'square' ? 'length' : primary, length, along: edgeOf(at) }
}

/** First piece check: said at each new set-up, and drawn once its first piece lies there to be measured. */
export function FirstPiece(props: {
  readonly station: Station
  readonly cut: BenchCut
  readonly plan: Plan
  readonly products: Run['products']
  readonly shop: Shop
  readonly job: string
  /** How each piece lies at its cut, by product. */
  readonly lying: ReadonlyMap<string, AtCut>
  /** How far the stop is set off what is printed, mm. */
  readonly moved: number
  /** This piece is no good: tell of a miscut. */
  readonly onBad: (cut: BenchCut) => void
}) {
  const { station, plan, products, shop, lying } = props
  const [first] = firstDone(station)
  if (!first && station.cut > 0) return null
  const cut = first ?? props.cut
  const { product, setUp } = cut
  const { piece, stage } = calledOf(product, products)
  const at = lying.get(product.id)
  const wanted = wantedOf(cut, plan, at)
  // What the head is set to shows on the face that lay on the table, not on one that was turned or raised.
  const onFace = setUp.swing !== 0 && setUp.roll === 0 && setUp.ramp === 0
  const angle = onFace ? showAngle(Math.abs(setUp.swing), shop.reading).text : undefined
  const name = stage === 'blank' ? `blank ${piece}` : stage ? `${piece}, ${stage}` : piece
  const edge = wanted && at ? sayEdge(at, wanted.along, unitsOf(shop.reading) === 'in') : ''
  return (
    <div className="first-piece" data-check={first ? 'measure' : 'coming'}>
      <p>
        <b>First piece check.</b> {first ? `Measure ${name}` : `Cut one, then measure ${name}`}
        {wanted && (
          <>
            : <LengthText of={wanted.length} />
          </>
        )}
        {angle && `, the angle ${angle} from square`}.
      </p>
      {first && wanted && at && (
        <>
          <EdgeToMeasure
            at={at}
            along={wanted.along}
            stopSide={setUp.stopSide}
            name={piece}
            length={`${wanted.length.text} ${wanted.length.unit}`}
            says={`Measure ${name}. ${edge}`}
          />
          <p>{edge}</p>
          <MeasuredPiece
            key={first.done}
            job={props.job}
            cut={first}
            wanted={wanted.length.mm}
            what={wanted.what}
            moved={props.moved}
            shop={shop}
            onBad={() => props.onBad(first)}
          />
        </>
      )}
    </div>
  )
}
