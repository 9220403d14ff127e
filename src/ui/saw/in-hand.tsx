import type { NestStick } from '../../core/nest.ts'
import type { BenchCut, Run } from '../../core/plan-shapes.ts'
import { showLength } from '../../core/reading/show.ts'
import { isOpen, nextCut } from '../../core/saw/bench.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { saysOf } from '../words.ts'
import { calledTogether, inHand } from './say.ts'
import { canCut, type Station } from './work.ts'

/** The piece and the steel in hand, one as big as the other: taking the wrong stick is the commonest slip. */
export function InHand({
  stroke,
  run,
  sticks,
  shop,
  copies,
}: {
  /** The cut at hand with those that the same stroke makes. */
  stroke: readonly [BenchCut, ...BenchCut[]]
  run: Run
  sticks: readonly NestStick[]
  shop: Shop
  copies: number
}) {
  const says = saysOf(shop)
  const [cut, ...beside] = stroke
  const called = calledTogether(stroke, run.products)
  const ofCopies = [...new Set(stroke.flatMap(({ product }) => product.copy ?? []))]
  const stick = sticks.find((one) => one.id === cut.stick)
  const whole = cut.loaded === cut.stick
  const piece = stick?.pieces.find((one) => (one.blank ?? one.piece) === cut.product.id)
  return (
    <div className="in-hand">
      <p className="in-hand-piece">
        <span className="mark">{called.piece}</span>
        {called.stage && <span className="stage"> {called.stage}</span>}
        {copies > 1 && ofCopies.length > 0 && <span className="copy"> copy {ofCopies.join(', ')}</span>}
      </p>
      <p className="in-hand-stick">
        from{' '}
        {beside.length > 0 ? (
          <>
            {says.sticks} <span className="mark">{stroke.map((one) => one.stick).join(', ')}</span>, side by
            side
          </>
        ) : whole ? (
          <>
            {stick?.from === 'rack' ? 'rack piece' : says.stick} <span className="mark">{cut.stick}</span>
            {stick && (
              <>
                , <LengthText of={showLength(stick.length, shop.reading)} />
              </>
            )}
          </>
        ) : (
          <>
            <span className="mark">{inHand(cut, run.products)}</span>{' '}
            <span className="copy">
              of {says.stick} {cut.stick}
            </span>
          </>
        )}
      </p>
      <p className="in-hand-what">
        {sectionName(cut.setUp.section, shop.reading)}
        {whole && piece && (
          <>
            {' '}
            · left on it after this cut{' '}
            <LengthText of={showLength(Math.max(0, piece.ends[1].x - cut.program.kerf), shop.reading)} />
          </>
        )}
      </p>
    </div>
  )
}

/** Why there is nothing to cut in this set-up now. */
export function Elsewhere({
  station,
  cuts,
  blocked,
}: {
  station: Station
  cuts: readonly BenchCut[]
  blocked: boolean
}) {
  const open = station.cuts.filter(isOpen)
  const missing = open.find((cut) => !canCut(cut))
  if (open.length === 0) return <p className="elsewhere state cut">This set-up is cut.</p>
  const next = nextCut(cuts)
  return (
    <p className="elsewhere state">
      {blocked && missing
        ? `Nothing to cut here yet: ${missing.loaded} is not cut.`
        : `The order of work goes on in another set-up${next ? ` with ${sayStick(next)}` : ''}.`}
    </p>
  )
}

const sayStick = (cut: BenchCut): string => (cut.loaded === cut.stick ? `stick ${cut.stick}` : cut.loaded)
