import './saw.css'
import { dropNow, stickNow } from '../../app/stick-now.ts'
import { stickName } from '../../core/facts/rack.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { go, hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { afterSaw } from './after-saw.ts'
import { Bench } from './bench.tsx'
import { Changed } from './changed.tsx'
import { Miscut } from './miscut.tsx'
import { markToPaint, paintedOf } from './painted.ts'
import { isLacking, Lacking } from './rest.tsx'
import { NestWork, NoNest, NoPlan, NoRun, Refused, Spares, Stale } from './waiting.tsx'

/** The Saw station: one set-up at a time, every cut checked off, or why there is nothing to cut yet. */
export function Saw({ view, at }: StationProps) {
  const shop = useShop()
  const actions = useActions()
  const flash = useApp((state) => state.flash)
  const progress = useApp((state) => state.progress)
  const facts = useApp((state) => state.facts)
  const ownLast = useApp((state) => state.progress.last[view.id] !== undefined)
  const undoable =
    ownLast || (view.together !== undefined && view.cuts.some(({ done }) => done !== undefined))
  const { plan, nest, nesting, cuts } = view
  const sizes = hrefOf({ station: 'sizes', job: view.id })
  const undo = () => void actions.undo(view.id)
  if (view.refused.length > 0) return <Refused faults={view.refused} sizesHref={sizes} />
  if (!plan) return <NoPlan problems={view.problems} sizesHref={sizes} />
  if (nesting.rest) return <Changed view={view} plan={plan} {...(undoable ? { onUndo: undo } : {})} />
  if (plan.hindered)
    return <NoRun problems={plan.hindered} sizesHref={sizes} shopHref={hrefOf({ station: 'shop' })} />
  const run = plan.run
  if (!run || !nest || cuts.length + view.byHand.length === 0)
    return (
      <NoNest
        nesting={nesting}
        onStop={() => actions.stopSolving(view.id)}
        onAgain={() => actions.show(view.id)}
        stockHref={hrefOf({ station: 'stock', job: view.id })}
      />
    )
  const sticks = nest.sections.flatMap((section) => section.sticks)
  return (
    <>
      {nesting.state === 'working' && progress.accepted[view.id] !== nest.id && (
        <NestWork nesting={nesting} usable onStop={() => actions.stopSolving(view.id)} />
      )}
      <Stale view={view} sizesHref={sizes} />
      <Spares spares={view.spares} shop={shop} />
      <Bench
        job={view.id}
        nest={nest.id}
        stops={view.stops}
        plan={plan}
        run={run}
        sticks={sticks}
        cuts={cuts}
        byHand={view.byHand}
        shop={shop}
        flash={flash}
        chosen={at}
        undoable={undoable}
        isSettled={(stick) => [...progress.kept, ...progress.scrapped].includes(stickName(nest.id, stick))}
        sticksNow={sticks.map((stick) => ({
          ...stick,
          drop: dropNow(stick, stickNow(nest.id, stick, progress)),
        }))}
        onGo={(setUp) => go({ station: 'saw', job: view.id, at: setUp })}
        onCut={(stroke) => actions.cut(view.id, ...stroke)}
        onByHand={(piece) => actions.cutByHand(view.id, piece)}
        onUndo={(one) => void actions.undo(view.id, one)}
        onKeepDrop={(stick, length) => void actions.keepDrop(view.id, stick, length)}
        onScrap={(stick) => void actions.scrap(view.id, stick)}
        dropMark={(stick) => markToPaint(progress, nest.id, stick)}
        painted={paintedOf(facts, progress, nest.id)}
        tellMiscut={(now, end, of) => <Miscut view={view} nest={nest} now={now} of={of} onEnd={end} />}
        lacking={isLacking(view)}
        rest={(seen, onSeen) => <Lacking view={view} seen={seen} onSeen={onSeen} />}
        onNext={() => go({ station: afterSaw(plan).station, job: view.id })}
      />
    </>
  )
}
