import type { ReactNode } from 'react'
import type { NestStick } from '../../core/nest.ts'
import type { BenchCut, Plan, Run } from '../../core/plan-shapes.ts'
import type { Shop } from '../../core/shop.ts'
import { type AtCut, lyingAtCuts } from '../drawing/lying.ts'
import { DeliverySize } from './delivery-size.tsx'
import { FigureNotes, Figures, figureCount, stopToSet } from './figures.tsx'
import { FirstPiece } from './first-piece.tsx'
import { Habits } from './habits.tsx'
import { Elsewhere, InHand } from './in-hand.tsx'
import { BladesChanged, OtherBlade } from './other-blade.tsx'
import { BenchPicture } from './picture.tsx'
import { RealStick } from './real-stick.tsx'
import { calledOf, isShort, sayAngles, sayCalled, shortEnd, shortPiece } from './say.ts'
import { SideView } from './side-view.tsx'
import { Steps } from './steps.tsx'
import type { Now, Station } from './work.ts'

interface PanelProps {
  readonly plan: Plan
  readonly run: Run
  readonly sticks: readonly NestStick[]
  readonly cuts: readonly BenchCut[]
  readonly shop: Shop
  readonly station: Station
  /** The cut that is wanted here now; absent where there is none. */
  readonly cut: BenchCut | undefined
  readonly now: Now['kind']
  readonly job: string
  readonly nest: string
  /** Corrections of the stop that stand, mm, by set-up. */
  readonly stops: Readonly<Record<string, number>>
  /** What is left of a stick that is done, to be kept or scrapped. */
  readonly leftOver: ReactNode
}

/** One set-up: what to set, which steel, how it lies, what to do in which order. */
export function Panel(props: PanelProps) {
  const { station, cut, run, shop, cuts, plan } = props
  const { setUp } = station
  const saw = shop.saws.find((one) => one.id === setUp.saw)
  // A set-up names a saw of the shop that the plan was made with; a saw removed since leaves nothing to show.
  if (!saw) return <p className="problem">Saw {setUp.saw} of this set-up is no longer in the shop.</p>
  const moved = props.stops[setUp.id] ?? 0
  const toSet = stopToSet(setUp, moved, shop.reading)
  const whole = cut && cut.loaded === cut.stick && props.sticks.find((stick) => stick.id === cut.stick)
  const pictured = cut ?? station.cuts[station.cuts.length - 1]
  const inHand = cut && (plan.cutParts ?? plan.parts).find(({ mark }) => mark === cut.product.mark)
  const at = pictured && lyingAtCuts(run, props.sticks).get(pictured.product.id)
  // The one piece that is cut is measured before anything else; till then what the hands do comes first.
  const toMeasure = station.cuts.filter(({ done }) => done !== undefined).length === 1
  const check = cut && (
    <FirstPiece
      station={station}
      cut={cut}
      plan={plan}
      products={run.products}
      shop={shop}
      job={props.job}
      moved={moved}
    />
  )
  return (
    <>
      <h1 className="heard">
        Set-up {station.number}, {sayAngles(setUp, saw)}, stop {toSet.text} {toSet.unit}
      </h1>
      {cut ? (
        <InHand cut={cut} run={run} sticks={props.sticks} shop={shop} copies={plan.quantity} />
      ) : (
        <Elsewhere station={station} cuts={cuts} blocked={props.now === 'blocked'} />
      )}
      <div className={figureCount(setUp) > 2 ? 'saw-how many' : 'saw-how'}>
        <Figures setUp={setUp} saw={saw} moved={moved} reading={shop.reading} />
        <div className="saw-do saw-seen">
          {at && pictured && (
            <BenchPicture
              at={at}
              setUp={setUp}
              name={calledOf(pictured.product, run.products).piece}
              stop={`${toSet.text} ${toSet.unit}`}
              long={pictured.loaded === pictured.stick}
              says={pictureWords(pictured, run)}
            />
          )}
          <SideView setUp={setUp} />
        </div>
        <div className="saw-do">
          <FigureNotes setUp={setUp} saw={saw} />
          <BladesChanged shop={shop} />
          {toMeasure && check}
          {cut && <Steps cut={cut} cuts={cuts} run={run} shop={shop} />}
          {!toMeasure && check}
          {whole && cut.loadFirst && (
            <RealStick key={whole.id} job={props.job} nest={props.nest} stick={whole} shop={shop} />
          )}
          {cut &&
            at &&
            shortCautions(at, cut.loaded === cut.stick).map((caution) => (
              <p key={caution} className="caution short">
                {caution}
              </p>
            ))}
          {inHand && <DeliverySize part={inHand} shop={shop} />}
          {cut && <Habits setUp={setUp} shop={shop} />}
          {/* Late: it can wait, and what is to be done at the next cut cannot. */}
          {props.leftOver}
          <OtherBlade job={props.job} saw={saw} shop={shop} />
        </div>
      </div>
    </>
  )
}

/** Cautions for what is hard to hold at this cut: the piece that is kept, or the end that comes off. */
function shortCautions({ keep, rest }: AtCut, whole: boolean): readonly string[] {
  const left = rest.lead.x - rest.trail.x
  return [
    ...(isShort(keep.lead.x - keep.trail.x, keep.depth) ? [shortPiece] : []),
    ...(!whole && left < 2 * rest.depth ? [shortEnd] : []),
  ]
}

const pictureWords = (cut: BenchCut, run: Run): string => {
  const { setUp } = cut
  const called = sayCalled(calledOf(cut.product, run.products))
  return [
    `From above: ${called} against the fence, stop at the ${setUp.stopSide}, ${setUp.printed.stop.text} ${setUp.printed.stop.unit} from the teeth`,
    setUp.printed.lean,
    setUp.printed.longSide,
  ]
    .filter(Boolean)
    .join('; ')
}
