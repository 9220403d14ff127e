import './saw.css'
import { useActions, useApp, useShop } from '../app.ts'
import { go, hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { Bench } from './bench.tsx'
import { Changed, NestWork, NoNest, NoPlan, NoRun, Refused, Spares, Stale } from './waiting.tsx'

/** The Saw station: one set-up at a time, every cut checked off, or why there is nothing to cut yet. */
export function Saw({ view, at }: StationProps) {
  const shop = useShop()
  const actions = useActions()
  const flash = useApp((state) => state.flash)
  const kept = useApp((state) => state.progress.kept)
  const undoable = useApp((state) => state.progress.last[view.id] !== undefined)
  const { plan, nest, nesting, cuts } = view
  const sizes = hrefOf({ station: 'sizes', job: view.id })
  const undo = () => void actions.undo(view.id)
  if (view.refused.length > 0) return <Refused faults={view.refused} sizesHref={sizes} />
  if (!plan) return <NoPlan problems={view.problems} sizesHref={sizes} />
  if (nesting.rest)
    return (
      <Changed
        nesting={nesting}
        spares={view.spares}
        shop={shop}
        onPlanRest={() => void actions.planRest(view.id)}
        {...(undoable ? { onUndo: undo } : {})}
      />
    )
  if (plan.hindered)
    return <NoRun problems={plan.hindered} sizesHref={sizes} shopHref={hrefOf({ station: 'shop' })} />
  const run = plan.run
  if (!run || !nest || cuts.length === 0)
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
      {nesting.state === 'working' && (
        <NestWork nesting={nesting} usable onStop={() => actions.stopSolving(view.id)} />
      )}
      <Stale view={view} sizesHref={sizes} />
      <Spares spares={view.spares} shop={shop} />
      <Bench
        plan={plan}
        run={run}
        sticks={sticks}
        cuts={cuts}
        shop={shop}
        flash={flash}
        chosen={at}
        undoable={undoable}
        isKept={(stick) => kept.includes(`${nest.id}/${stick}`)}
        onGo={(setUp) => go({ station: 'saw', job: view.id, at: setUp })}
        onCut={(cut) => actions.cut(view.id, cut)}
        onUndo={undo}
        onKeepDrop={(stick, length) => void actions.keepDrop(view.id, stick, length)}
        onWeld={() => go({ station: 'weld', job: view.id })}
      />
    </>
  )
}
