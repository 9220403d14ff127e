import './finish.css'
import { useMemo, useState } from 'react'
import type { JobView } from '../../app/state.ts'
import { tickName } from '../../core/facts/fold.ts'
import { type FinishStep, finishSteps } from '../../core/finish/steps.ts'
import { oneLift, overOneLift, wholeText } from '../../core/parts/weight.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { CopyPick } from '../fields/copy-pick.tsx'
import { NoPlan } from '../saw/waiting.tsx'
import { hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { Coating } from './coating.tsx'
import { Drilling } from './drilling.tsx'
import { FinalCheck } from './final-check.tsx'
import { useLastTime } from './last-time.ts'
import { Leveling } from './leveling.tsx'
import { BuildRecord } from './record.tsx'
import { Steps } from './steps.tsx'

/** The Finish station: what is left to do when all is welded. */
export function Finish({ view }: StationProps) {
  if (!view.plan)
    return <NoPlan problems={view.problems} sizesHref={hrefOf({ station: 'sizes', job: view.id })} />
  return <WhatIsLeft view={view} plan={view.plan} />
}

/** What of a job a station's sections need: one copy, its figures. */
export interface Copy {
  readonly view: JobView
  readonly plan: Plan
  readonly copy: number
  readonly measured: (of: string) => number | undefined
  readonly onGauge: (of: string, value: number | undefined) => void
}

function WhatIsLeft({ view, plan }: { readonly view: JobView; readonly plan: Plan }) {
  const actions = useActions()
  const shop = useShop()
  const gauged = useApp((state) => state.progress.gauged)
  const ticked = useApp((state) => state.progress.ticked)
  const undoable = useApp((state) => state.progress.last[view.id] !== undefined)
  const [copy, setCopy] = useState(1)
  const last = useLastTime(view.job)
  const steps = useMemo(() => finishSteps(plan.frame, plan.weld), [plan.frame, plan.weld])
  const of: Copy = {
    view,
    plan,
    copy,
    measured: (name) => gauged[tickName(view.id, copy, name)]?.value,
    onGauge: (name, value) => void actions.gauge(view.id, copy, name, value),
  }
  const isDone = ({ id }: FinishStep) => ticked[tickName(view.id, copy, id)] !== undefined
  const tick = ({ id }: FinishStep) => void actions.tick(view.id, copy, id, 'checked')
  const list = (group: FinishStep['group']) => (
    <Steps steps={steps.filter((step) => step.group === group)} isDone={isDone} onTick={tick} />
  )
  const done = steps.filter(isDone).length
  return (
    <div className="finish">
      <header className="finish-head">
        <CopyPick quantity={plan.quantity} copy={copy} onChoose={setCopy} />
        <p role="status">
          <b>{done}</b> of {steps.length} done
        </p>
        <button type="button" disabled={!undoable} onClick={() => void actions.undo(view.id)}>
          Undo
        </button>
        {plan.frame.joints.length > 0 && (
          <p>
            {wholeText(plan.frame, shop.mass)}
            {plan.mass > oneLift && (
              <b>
                {' '}
                That is {overOneLift}: turn it and set it down with a second person or a hoist, and nobody
                under it.
              </b>
            )}
          </p>
        )}
      </header>
      <section aria-labelledby="finish-grind">
        <h2 id="finish-grind">Grind</h2>
        <p className="warning">
          Guard on, between the disc and you; face shield over glasses, ears covered, sparks away from what
          burns. The disc’s marked speed is not below the grinder’s. The grinder’s manual comes first.
        </p>
        {list('grind')}
      </section>
      <Drilling job={plan.name} frame={plan.frame} shop={shop}>
        {list('drill and tap')}
      </Drilling>
      <Coating frame={plan.frame} shop={shop}>
        {list('coat')}
      </Coating>
      <Leveling of={of} shop={shop}>
        {list('level')}
      </Leveling>
      <FinalCheck of={of} shop={shop} last={last} />
      <BuildRecord of={of} last={last} />
    </div>
  )
}
