import './weld.css'
import { useState } from 'react'
import type { JobView } from '../../app/state.ts'
import type { Plan, WeldStep } from '../../core/plan-shapes.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { TakeTable } from '../fields/take-table.tsx'
import { DoneMark } from '../saw/cut-bar.tsx'
import { Flash, useCheckOff } from '../saw/flash.tsx'
import { NoPlan } from '../saw/waiting.tsx'
import { hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { Checklist } from './checklist.tsx'
import { Copies } from './copies.tsx'
import { CutApart } from './cut-apart.tsx'
import { JointDrawing } from './joints.tsx'
import {
  doneWords,
  isTicked,
  jointNumbers,
  jointState,
  kindWords,
  stagesOf,
  tickKey,
  tickOf,
} from './list.ts'
import { Now, shortText } from './now.tsx'
import { orderOut } from './order-out.ts'

/** The Weld station: tacks, checks and passes of one copy in their order, each joint numbered on the drawing. */
export function Weld({ view }: StationProps) {
  if (!view.plan)
    return <NoPlan problems={view.problems} sizesHref={hrefOf({ station: 'sizes', job: view.id })} />
  if (view.plan.weld.steps.length === 0)
    return (
      <section className="station-state">
        <h1>Nothing to weld</h1>
        <p>This job has pieces and no joints: a cut list says only what to cut.</p>
      </section>
    )
  return <WeldList view={view} plan={view.plan} />
}

function WeldList({ view, plan }: { view: JobView; plan: Plan }) {
  const shop = useShop()
  const actions = useActions()
  const ticked = useApp((state) => state.progress.ticked)
  const gauged = useApp((state) => state.progress.gauged)
  const flash = useApp((state) => state.flash)
  const undoable = useApp((state) => state.progress.last[view.id] !== undefined)
  const { steps } = plan.weld
  const open = (copy: number) => steps.filter((step) => !isTicked(ticked, view.id, copy, step.id)).length
  const copies = Array.from({ length: plan.quantity }, (_, at) => at + 1)
  const [chosen, setChosen] = useState<number | null>(null)
  const first = copies.find((copy) => open(copy) > 0) ?? plan.quantity
  const copy = chosen !== null && chosen <= plan.quantity ? chosen : first
  const isDone = (step: WeldStep) => isTicked(ticked, view.id, copy, step.id)
  const now = steps.find((step) => !isDone(step))
  // A copy that was looked at stays in sight when it is finished; the next one is the person's own choice.
  const tick = (step: WeldStep) => {
    setChosen(copy)
    return actions.tick(view.id, copy, step.id, tickOf(step))
  }
  const checkOff = useCheckOff((id) => isTicked(ticked, view.id, copy, id))
  const press = () => {
    if (!now) return
    const number = now.joint === undefined ? '' : ` ${numbers.get(now.joint)}`
    checkOff.check(now.id, `${kindWords[now.kind]}${number} is ${doneWords[now.kind]}`, () => tick(now))
  }
  const numbers = jointNumbers(plan)
  // Only the joints of the sub-assembly at hand: all of a pedestal's at once would cover each other.
  const shown = new Set(
    steps.filter((step) => !now || step.assembly === now.assembly).map(({ joint }) => joint),
  )
  const joints = [...numbers]
    .filter(([id]) => shown.has(id))
    .map(([id, number]) => ({
      id,
      number,
      state: jointState(id, steps, isDone, now?.joint),
    }))
  const ring = plan.frame.assemblies.some((one) => one.id === now?.assembly && one.ring)
  return (
    <div className="weld">
      <div className="weld-top">
        <Flash flash={flash} />
        <Copies copies={copies} copy={copy} open={open} total={steps.length} onChoose={setChosen} />
        <div className="weld-now">
          {now ? (
            <Now
              step={now}
              plan={plan}
              view={view}
              copy={copy}
              number={now.joint === undefined ? undefined : numbers.get(now.joint)}
              measured={(of) => gauged[tickKey(view.id, copy, of)]?.value}
              onGauge={(of, value) => void actions.gauge(view.id, copy, of, value)}
            />
          ) : (
            <p className="weld-done state cut">
              {plan.quantity > 1 ? `Copy ${copy}: ` : ''}all {steps.length} steps are done.
            </p>
          )}
          <JointDrawing
            plan={plan}
            joints={joints}
            seam={plan.weld.seams.find((seam) => seam.id === now?.seam)}
            best={ring ? 'above' : 'corner'}
          />
        </div>
        <p className="dim" role="status">
          <b>{steps.length - open(copy)}</b> of {steps.length} steps
          {plan.quantity > 1 ? ` of copy ${copy}` : ''}
        </p>
      </div>
      <Checklist
        stages={stagesOf(plan)}
        numbers={numbers}
        isDone={isDone}
        now={now?.id}
        onTick={(step) => void tick(step)}
      />
      <TakeTable name={plan.name} what="weld order" table={() => orderOut(plan, shop.reading, isDone)} />
      <CutApart key={copy} job={view.id} copy={copy} />
      <div className={`cut-bar hand-${shop.hand}`}>
        <button
          type="button"
          className="undo"
          disabled={!undoable}
          onClick={() => void actions.undo(view.id)}
        >
          Undo
        </button>
        <MainKey
          now={now}
          number={now?.joint === undefined ? undefined : numbers.get(now.joint)}
          checkOff={checkOff}
          onPress={press}
        />
      </div>
    </div>
  )
}

/** Checks off the step at hand; it says what was done until the next one may be pressed. */
function MainKey(props: {
  now: WeldStep | undefined
  number: number | undefined
  checkOff: ReturnType<typeof useCheckOff>
  onPress: () => void
}) {
  const { now, number, checkOff } = props
  const name = now && `${kindWords[now.kind]}${number === undefined ? '' : ` ${number}`}`
  return (
    <button
      type="button"
      className={`main-button ${checkOff.just ? 'was-cut' : 'go'}`}
      aria-busy={checkOff.busy}
      aria-disabled={checkOff.just !== null || now === undefined}
      onKeyDown={(event) => {
        if (event.repeat && (event.key === 'Enter' || event.key === ' ')) event.preventDefault()
      }}
      onClick={props.onPress}
    >
      {checkOff.just ? (
        <>
          <DoneMark /> {checkOff.just.name}
        </>
      ) : now ? (
        <span className="cut-words">
          <span>{name}: done</span>
          {now.text.length <= shortText && <span className="cut-stage"> {now.text}</span>}
        </span>
      ) : (
        'All done'
      )}
    </button>
  )
}
