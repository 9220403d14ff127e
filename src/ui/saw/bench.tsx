import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { NestStick } from '../../core/nest.ts'
import type { BenchCut, HandCut, Plan, Run } from '../../core/plan-shapes.ts'
import { isOpen, nextCut } from '../../core/saw/bench.ts'
import type { Shop } from '../../core/shop.ts'
import { TakeTable } from '../fields/take-table.tsx'
import { count } from '../words.ts'
import { afterSaw } from './after-saw.ts'
import { ByHand } from './by-hand.tsx'
import { CutBar } from './cut-bar.tsx'
import { Flash, useCheckOff } from './flash.tsx'
import { LeftOver, leftOvers, Paint } from './left-over.tsx'
import type { Painted } from './painted.ts'
import { Panel } from './panel.tsx'
import { usePedal } from './pedal.ts'
import { calledTogether, onKey, sawCaution } from './say.ts'
import { NextSetUp, SetUpList } from './set-ups.tsx'
import { setUpsOut } from './tables-out.ts'
import { nextStation, nowAt, type Station, stationsOf, strokeOf } from './work.ts'

export interface BenchProps {
  readonly job: string
  readonly nest: string
  /** Corrections of the stop that stand, mm, by set-up. */
  readonly stops: Readonly<Record<string, number>>
  readonly plan: Plan
  readonly run: Run
  readonly sticks: readonly NestStick[]
  readonly cuts: readonly BenchCut[]
  /** Pieces that are left to the hand. */
  readonly byHand: readonly HandCut[]
  readonly shop: Shop
  /** Counts up at each fact that reached the disk. */
  readonly flash: number
  /** Set-up that the address names. */
  readonly chosen: string | undefined
  readonly undoable: boolean
  /** What is left of this stick is on the rack already, or scrap. */
  readonly isSettled: (stick: string) => boolean
  /** Sticks with the drop that the real ones leave. */
  readonly sticksNow: readonly NestStick[]
  readonly onGo: (setUp: string) => void
  readonly onCut: (stroke: readonly BenchCut[]) => Promise<void>
  readonly onByHand: (piece: string) => Promise<void>
  /** `one`: only the last piece of a stroke. */
  readonly onUndo: (one: boolean) => void
  readonly onKeepDrop: (stick: string, length: number) => void
  readonly onScrap: (stick: string) => void
  /** To the station that comes after the saw. */
  readonly onNext: () => void
  /** Tells of a miscut; `now` are the cuts at hand, `of` the piece that is meant. */
  readonly tellMiscut: (now: readonly BenchCut[], end: () => void, of: string | undefined) => ReactNode
  /** The plan no longer gives all: `rest` says it in a line, or `seen` shows the plan of what is left. */
  readonly lacking: boolean
  readonly rest: (seen: boolean, onSeen: (seen: boolean) => void) => ReactNode
  /** What is painted on the drop of a stick when it is kept. */
  readonly dropMark: (stick: string) => string
  /** Drops on the rack, with what is painted on them. */
  readonly painted: readonly Painted[]
}

/** The Saw station while there is a run: the set-ups, the one at hand, and its next cut. */
export function Bench(props: BenchProps) {
  const { run, cuts, shop } = props
  const [later, setLater] = useState<ReadonlySet<string>>(new Set())
  /** A miscut is being told; of this piece first, where one was named. */
  const [telling, setTelling] = useState<{ readonly of?: string } | undefined>(undefined)
  /** The plan of what is left is looked at. */
  const [looking, setLooking] = useState(false)
  const stations = stationsOf(cuts)
  const [aside, setAside] = useState(false)
  const [alone, setAlone] = useState(false)
  const all = [...cuts, ...props.byHand]
  const checkOff = useCheckOff((id) => all.some((cut) => cut.product.id === id && cut.done !== undefined))
  const [stay, setStay] = useState<string | undefined>(undefined)
  const known = (id: string | undefined) => stations.some((station) => station.setUp.id === id)
  // A set-up stays until the person moves on: the next one needs another stop or angle, set by hand.
  const chosen = [props.chosen, stay].find(known) ?? nextCut(cuts)?.setUp.id
  if (chosen !== stay) setStay(chosen)
  const now = nowAt(stations, cuts, chosen, aside, later)
  const seen = props.lacking && !telling && (looking || now.kind === 'all cut')
  if (looking && !props.lacking) setLooking(false)
  const away = telling !== undefined || seen
  const rest = props.lacking && !telling && props.rest(seen, setLooking)
  const home =
    now.kind === 'all cut'
      ? undefined
      : now.kind === 'cut' && now.aside
        ? nowAt(stations, cuts, undefined, false, later)
        : now
  const homeId = home === undefined || home.kind === 'all cut' ? undefined : home.cut.setUp.id
  const shown = now.kind === 'all cut' ? stations.find((one) => one.setUp.id === chosen) : now.station
  const go = (setUp: string) => {
    setAside(setUp !== homeId)
    props.onGo(setUp)
  }
  const lefts = leftOvers(
    props.sticksNow,
    (stick) => finished(cuts, stick) && !props.byHand.some((one) => waitsIn(one, stick)),
    props.isSettled,
  )
  const left = lefts[0]
  const cut = now.kind === 'cut' ? now.cut : undefined
  const stroke = cut && strokeOf(cut, cuts, alone)
  useTop([shown?.setUp.id, cut?.stick, telling ? 'miscut' : '', seen ? 'rest' : ''].join(' '))
  const hand = now.kind === 'all cut' ? props.byHand.find((one) => isOpen(one)) : undefined
  const checkNow = () => {
    if (!stroke) return
    const name = onKey(calledTogether(stroke, run.products))
    checkOff.check(stroke[0].product.id, name, () => props.onCut(stroke))
  }
  const undo = () => props.onUndo(alone)
  const made = (piece: string) => checkOff.check(piece, piece, () => props.onByHand(piece))
  usePedal(stroke && !away ? checkNow : undefined, props.undoable && !away ? undo : undefined)
  const leftOver = left && (
    <LeftOver
      stick={left}
      mark={props.dropMark(left.id)}
      shop={shop}
      onKeep={() => props.onKeepDrop(left.id, left.drop)}
      all={lefts.filter(({ drop }) => drop >= shop.leastDrop)}
      onKeepAll={(all) => {
        for (const { id, drop } of all) props.onKeepDrop(id, drop)
      }}
      onScrap={() => props.onScrap(left.id)}
    />
  )
  const byHand = (
    <ByHand
      job={props.plan.name}
      pieces={props.byHand}
      parts={props.plan.cutParts ?? props.plan.parts}
      shop={shop}
      now={now.kind === 'all cut'}
      onMade={made}
    />
  )
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
        {seen && rest}
        {telling && props.tellMiscut(stroke ?? [], () => setTelling(undefined), telling.of)}
        {now.kind === 'all cut' && !telling && <AllCut cuts={cuts} byHand={props.byHand} />}
        {now.kind === 'all cut' && !telling && byHand}
        {shown && !away && !hand && (
          <Panel
            {...props}
            station={shown}
            stroke={stroke}
            alone={alone}
            onAlone={setAlone}
            onBad={({ product }) => setTelling({ of: product.id })}
            now={now.kind}
            leftOver={leftOver}
          />
        )}
        {(!shown || hand || seen) && !telling && leftOver}
        <Paint painted={now.kind === 'all cut' ? props.painted : props.painted.slice(0, 1)} shop={shop} />
        {shown && <After station={shown} cuts={cuts} stations={stations} run={run} shop={shop} />}
        {now.kind !== 'all cut' && byHand}
        <p className="caution">{sawCaution}</p>
        <TakeTable
          name={props.plan.name}
          what="set-ups"
          table={() => setUpsOut(stations, run.products, shop)}
        />
      </div>
      <CutBar
        now={now}
        here={shown}
        cuts={cuts}
        products={run.products}
        shop={shop}
        checkOff={checkOff}
        undoable={props.undoable}
        stroke={stroke}
        byHand={props.byHand}
        onCut={checkNow}
        onMade={made}
        onUndo={undo}
        onGo={go}
        next={{ name: afterSaw(props.plan).name, go: props.onNext }}
        lacking={!seen && rest}
        telling={telling !== undefined}
        onBack={seen && now.kind !== 'all cut' ? () => setLooking(false) : undefined}
        onMiscut={() => setTelling(telling ? undefined : {})}
        onLeave={
          stroke && !away
            ? () => setLater(new Set([...later, ...stroke.map(({ product }) => product.id)]))
            : undefined
        }
      />
    </div>
  )
}

/** Another set-up, another stick, a miscut told: what is to be seen first stands at the top, so the page goes there. */
function useTop(at: string): void {
  const before = useRef(at)
  useEffect(() => {
    if (before.current !== at) window.scrollTo({ top: 0 })
    before.current = at
  }, [at])
}

/** Every cut on this stick itself is done; its blanks may still wait for their ends. */
const finished = (cuts: readonly BenchCut[], stick: string): boolean => {
  const own = cuts.filter((cut) => cut.loaded === stick)
  return own.length > 0 && !own.some(isOpen)
}

/** Steel of the bar that is left of this stick, or the stick itself, is still wanted for a piece made by hand. */
const waitsIn = (one: HandCut, stick: string): boolean =>
  isOpen(one) &&
  one.stick === stick &&
  (one.product.from === stick || one.product.from.startsWith(`${stick}.`))

function AllCut({ cuts, byHand }: Pick<BenchProps, 'cuts' | 'byHand'>) {
  const lost = cuts.filter((cut) => cut.lost !== undefined).length
  const open = byHand.filter(isOpen).length
  if (open > 0)
    return (
      <p className="all-cut">
        The saw has done its part. {count(open, 'piece')} left to make by hand, then the job is complete.
      </p>
    )
  return (
    <p className="all-cut state cut">
      {lost === 0
        ? `All ${cuts.length} cuts of this job are done. Undo takes the last one back.`
        : 'All that this plan still gives is cut. What a miscut took is planned above.'}
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
