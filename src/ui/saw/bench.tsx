import { useState } from 'react'
import type { NestStick } from '../../core/nest.ts'
import type { BenchCut, Plan, Run } from '../../core/plan-shapes.ts'
import { say, showLength } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { capital, saysOf } from '../words.ts'
import { CutBar } from './cut-bar.tsx'
import { Figures } from './figures.tsx'
import { FirstPiece } from './first-piece.tsx'
import { Flash, useCheckOff } from './flash.tsx'
import { LeftOver, leftOvers } from './left-over.tsx'
import { type AtCut, lyingAtCuts } from './lying.ts'
import { BenchPicture } from './picture.tsx'
import {
  calledOf,
  inHand,
  isShort,
  sawCaution,
  sayAngles,
  sayCalled,
  shortEnd,
  shortPiece,
  stepsOf,
} from './say.ts'
import { NextSetUp, SetUpList } from './set-ups.tsx'
import { canCut, nextStation, nowAt, type Station, stationsOf } from './work.ts'

export interface BenchProps {
  readonly plan: Plan
  readonly run: Run
  readonly sticks: readonly NestStick[]
  readonly cuts: readonly BenchCut[]
  readonly shop: Shop
  /** Counts up at each fact that reached the disk. */
  readonly flash: number
  /** Set-up that the address names. */
  readonly chosen: string | undefined
  readonly undoable: boolean
  /** Drops of this stick that are on the rack already. */
  readonly isKept: (stick: string) => boolean
  readonly onGo: (setUp: string) => void
  readonly onCut: (cut: BenchCut) => Promise<void>
  readonly onUndo: () => void
  readonly onKeepDrop: (stick: string, length: number) => void
  readonly onWeld: () => void
}

/** The Saw station while there is a run: the set-ups, the one at hand, and its next cut. */
export function Bench(props: BenchProps) {
  const { run, sticks, cuts, shop } = props
  const stations = stationsOf(cuts)
  const [aside, setAside] = useState(false)
  const [scrapped, setScrapped] = useState<readonly string[]>([])
  const checkOff = useCheckOff((id) => cuts.some((cut) => cut.product.id === id && cut.done !== undefined))
  const now = nowAt(stations, cuts, props.chosen, aside)
  const home =
    now.kind === 'all cut'
      ? undefined
      : now.kind === 'cut' && now.aside
        ? nowAt(stations, cuts, undefined, false)
        : now
  const homeId = home === undefined || home.kind === 'all cut' ? undefined : home.cut.setUp.id
  const shown = now.kind === 'all cut' ? stations.find((one) => one.setUp.id === props.chosen) : now.station
  const go = (setUp: string) => {
    setAside(setUp !== homeId)
    props.onGo(setUp)
  }
  const open = cuts.filter((cut) => cut.done === undefined).length
  const left = leftOvers(
    sticks,
    (stick) => finished(cuts, stick),
    (stick) => props.isKept(stick) || scrapped.includes(stick),
  )[0]
  const cut = now.kind === 'cut' ? now.cut : undefined
  return (
    <div className="bench">
      <SetUpList
        stations={stations}
        shown={shown?.setUp.id}
        home={homeId}
        current={cut?.index}
        products={run.products}
        shop={shop}
        onGo={go}
      />
      <div className="saw-panel">
        <Flash flash={props.flash} />
        <p className="bench-count" role="status">
          {shown && (
            <>
              <b>{shown.cut}</b> of {shown.cuts.length} in this set-up,{' '}
            </>
          )}
          <b>{cuts.length - open}</b> of {cuts.length} in all
        </p>
        {left && (
          <LeftOver
            stick={left}
            shop={shop}
            onKeep={() => props.onKeepDrop(left.id, left.drop)}
            onScrap={() => setScrapped([...scrapped, left.id])}
          />
        )}
        {shown && <Panel {...props} station={shown} cut={cut} now={now.kind} cuts={cuts} />}
        {now.kind === 'all cut' && <AllCut cuts={cuts} />}
        {shown && <After station={shown} cuts={cuts} stations={stations} run={run} shop={shop} />}
        <p className="caution">{sawCaution}</p>
      </div>
      <CutBar
        now={now}
        products={run.products}
        shop={shop}
        checkOff={checkOff}
        undoable={props.undoable}
        onCut={props.onCut}
        onUndo={props.onUndo}
        onGo={go}
        onWeld={props.onWeld}
      />
    </div>
  )
}

/** Every cut on this stick itself is done; its blanks may still wait for their ends. */
const finished = (cuts: readonly BenchCut[], stick: string): boolean => {
  const own = cuts.filter((cut) => cut.loaded === stick)
  return own.length > 0 && own.every((cut) => cut.done !== undefined)
}

function AllCut({ cuts }: { cuts: readonly BenchCut[] }) {
  return (
    <p className="all-cut state cut">
      All {cuts.length} cuts of this job are done. Undo takes the last one back.
    </p>
  )
}

function After(props: {
  station: Station
  cuts: readonly BenchCut[]
  stations: readonly Station[]
  run: Run
  shop: Shop
}) {
  const next = nextStation(props.stations, props.cuts, props.station)
  return next ? <NextSetUp station={next} products={props.run.products} shop={props.shop} /> : null
}

/** One set-up: what to set, which steel, how it lies, what to do in which order. */
function Panel(props: BenchProps & { station: Station; cut: BenchCut | undefined; now: string }) {
  const { station, cut, run, shop, cuts, plan } = props
  const { setUp } = station
  const saw = shop.saws.find((one) => one.id === setUp.saw)
  // A set-up names a saw of the shop that the plan was made with; a saw removed since leaves nothing to show.
  if (!saw) return <p className="problem">Saw {setUp.saw} of this set-up is no longer in the shop.</p>
  const pictured = cut ?? station.cuts[station.cuts.length - 1]
  const at = pictured && lyingAtCuts(run, props.sticks).get(pictured.product.id)
  return (
    <>
      <h1 className="heard">
        Set-up {station.number}, {sayAngles(setUp, saw)}, stop {setUp.printed.stop.text}{' '}
        {setUp.printed.stop.unit}
      </h1>
      {cut ? (
        <InHand cut={cut} run={run} sticks={props.sticks} shop={shop} />
      ) : (
        <Elsewhere station={station} cuts={cuts} blocked={props.now === 'blocked'} />
      )}
      <Figures setUp={setUp} saw={saw} />
      <div className="saw-how">
        <div className="saw-do">
          {setUp.printed.longSide && (
            <p className="lies-how">
              <b>{capital(setUp.printed.longSide)}.</b>
            </p>
          )}
          {at && pictured && (
            <BenchPicture
              at={at}
              setUp={setUp}
              name={calledOf(pictured.product, run.products).piece}
              stop={`${setUp.printed.stop.text} ${setUp.printed.stop.unit}`}
              long={pictured.loaded === pictured.stick}
              says={pictureWords(pictured, run)}
            />
          )}
        </div>
        {cut && (
          <div className="saw-do">
            <FirstPiece station={station} cut={cut} plan={plan} products={run.products} shop={shop} />
            <Steps cut={cut} cuts={cuts} run={run} shop={shop} />
            {at &&
              shortCautions(at, cut.loaded === cut.stick).map((caution) => (
                <p key={caution} className="caution short">
                  {caution}
                </p>
              ))}
          </div>
        )}
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

/** The piece and the steel in hand, one as big as the other: taking the wrong stick is the commonest slip. */
function InHand({
  cut,
  run,
  sticks,
  shop,
}: {
  cut: BenchCut
  run: Run
  sticks: readonly NestStick[]
  shop: Shop
}) {
  const says = saysOf(shop)
  const called = calledOf(cut.product, run.products)
  const stick = sticks.find((one) => one.id === cut.stick)
  const whole = cut.loaded === cut.stick
  const piece = stick?.pieces.find((one) => (one.blank ?? one.piece) === cut.product.id)
  return (
    <div className="in-hand">
      <p className="in-hand-piece">
        <span className="mark">{called.piece}</span>
        {called.stage && <span className="stage"> {called.stage}</span>}
        {cut.product.copy !== undefined && <span className="copy"> copy {cut.product.copy}</span>}
      </p>
      <p className="in-hand-stick">
        from{' '}
        {whole ? (
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

function Elsewhere({
  station,
  cuts,
  blocked,
}: {
  station: Station
  cuts: readonly BenchCut[]
  blocked: boolean
}) {
  const open = station.cuts.filter((cut) => cut.done === undefined)
  const missing = open.find((cut) => !canCut(cut))
  if (open.length === 0) return <p className="elsewhere state cut">This set-up is cut.</p>
  const next = cuts.find((cut) => cut.done === undefined && canCut(cut))
  return (
    <p className="elsewhere state">
      {blocked && missing
        ? `Nothing to cut here yet: ${missing.loaded} is not cut.`
        : `The order of work goes on in another set-up${next ? ` with ${sayStick(next)}` : ''}.`}
    </p>
  )
}

const sayStick = (cut: BenchCut): string => (cut.loaded === cut.stick ? `stick ${cut.stick}` : cut.loaded)

function Steps({ cut, cuts, run, shop }: { cut: BenchCut; cuts: readonly BenchCut[]; run: Run; shop: Shop }) {
  const says = saysOf(shop)
  const lengths = { say: (mm: number) => say(mm, shop.reading), stick: says.stick, drop: says.drop }
  const { before, after } = stepsOf(cut, run.products, lengths, cuts[cut.index + 1])
  const called = sayCalled(calledOf(cut.product, run.products))
  return (
    <ol className="bench-steps">
      {before.map((step) => (
        <li key={step.kind + step.text} data-step={step.kind}>
          {step.text}
        </li>
      ))}
      <li data-step="cut">
        <b>Cut {called}.</b>
      </li>
      {after.map((step) => (
        <li key={step.kind + step.text} data-step={step.kind}>
          {step.text}
        </li>
      ))}
    </ol>
  )
}
