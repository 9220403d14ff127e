import type { ReactNode } from 'react'
import type { NestStick } from '../../core/nest.ts'
import type { BenchCut, Plan, Run } from '../../core/plan-shapes.ts'
import type { Shop } from '../../core/shop.ts'
import { type AtCut, lyingAtCuts } from '../drawing/lying.ts'
import { Choice } from '../fields/choice.tsx'
import { capital, saysOf } from '../words.ts'
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
import { firstDone, type Now, type Station } from './work.ts'

interface PanelProps {
  readonly plan: Plan
  readonly run: Run
  readonly sticks: readonly NestStick[]
  readonly cuts: readonly BenchCut[]
  readonly shop: Shop
  readonly station: Station
  /** The cuts that are wanted here now, more than one where one stroke makes them; absent where there is none. */
  readonly stroke: readonly [BenchCut, ...BenchCut[]] | undefined
  /** Pieces that lie side by side are checked off one by one. */
  readonly alone: boolean
  readonly onAlone: (alone: boolean) => void
  /** This piece is no good: tell of a miscut. */
  readonly onBad: (cut: BenchCut) => void
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
  const { station, stroke, run, shop, cuts, plan } = props
  const cut = stroke?.[0]
  const { setUp } = station
  const saw = shop.saws.find((one) => one.id === setUp.saw)
  // A set-up names a saw of the shop that the plan was made with; a saw removed since leaves nothing to show.
  if (!saw) return <p className="problem">Saw {setUp.saw} of this set-up is no longer in the shop.</p>
  const moved = props.stops[setUp.id] ?? 0
  const toSet = stopToSet(setUp, moved, shop.reading)
  const pictured = cut ?? station.cuts[station.cuts.length - 1]
  const inHand = cut && (plan.cutParts ?? plan.parts).find(({ mark }) => mark === cut.product.mark)
  const lying = lyingAtCuts(run, props.sticks)
  const at = pictured && lying.get(pictured.product.id)
  // The one piece that is cut is measured before anything else; till then what the hands do comes first.
  const toMeasure = firstDone(station).length > 0
  const check = cut && (
    <FirstPiece
      station={station}
      cut={cut}
      plan={plan}
      products={run.products}
      shop={shop}
      job={props.job}
      lying={lying}
      moved={moved}
      onBad={props.onBad}
    />
  )
  return (
    <>
      <h1 className="heard">
        Set-up {station.number}, {sayAngles(setUp, saw)}, stop {toSet.text} {toSet.unit}
      </h1>
      {stroke ? (
        <InHand stroke={stroke} run={run} sticks={props.sticks} shop={shop} copies={plan.quantity} />
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
              {...(stroke && stroke.length > 1
                ? { abreast: stroke.map(({ product }) => calledOf(product, run.products).piece) }
                : {})}
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
          {stroke && <Steps stroke={stroke} cuts={cuts} run={run} shop={shop} />}
          {cut?.stroke && (
            <Choice
              label={`${capital(saysOf(shop).sticks)} lie side by side here. Check off`}
              value={props.alone ? 'one' : 'all'}
              options={[
                { value: 'all', label: 'a stroke at a time' },
                { value: 'one', label: 'one by one' },
              ]}
              onChange={(value) => props.onAlone(value === 'one')}
            />
          )}
          {!toMeasure && check}
          {stroke?.map(
            (one) =>
              one.loadFirst &&
              one.loaded === one.stick &&
              props.sticks
                .filter(({ id }) => id === one.stick)
                .map((stick) => (
                  <RealStick key={stick.id} job={props.job} nest={props.nest} stick={stick} shop={shop} />
                )),
          )}
          {cut &&
            at &&
            shortCautions(at, cut.loaded === cut.stick).map((caution) => (
              <p key={caution} className="caution short">
                {caution}
              </p>
            ))}
          {inHand && <DeliverySize part={inHand} shop={shop} />}
          {cut && <Habits shop={shop} />}
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
