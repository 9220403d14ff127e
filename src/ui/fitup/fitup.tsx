import './fitup.css'
import { useCallback, useMemo, useState } from 'react'
import type { JobView } from '../../app/state.ts'
import { tickName } from '../../core/facts/fold.ts'
import { type Loop, loopsOf } from '../../core/fitup/loops.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { Pick } from '../fields/choice.tsx'
import { CopyPick } from '../fields/copy-pick.tsx'
import { NoPlan } from '../saw/waiting.tsx'
import { hrefOf } from '../shell/route.ts'
import type { StationProps } from '../shell/stations.tsx'
import { BadJoint } from './bad-joint.tsx'
import { Level } from './level.tsx'
import { Outline } from './outline.tsx'
import { LieFlat, SquareUp } from './square-flat.tsx'
import { Stands } from './stands.tsx'
import { TableLayout } from './table-layout.tsx'
import { type Bench, WillItClose } from './will-it-close.tsx'

/** The Fit-up station: does it close, is it square, is it flat, and what to do before the arc is struck. */
export function FitUp({ view }: StationProps) {
  if (!view.plan)
    return <NoPlan problems={view.problems} sizesHref={hrefOf({ station: 'sizes', job: view.id })} />
  if (view.plan.frame.joints.length === 0)
    return (
      <section className="station-state">
        <h1>Nothing to fit up</h1>
        <p>This job has pieces and no joints: a cut list says only what to cut.</p>
      </section>
    )
  return <OnTheBench view={view} plan={view.plan} />
}

function OnTheBench({ view, plan }: { readonly view: JobView; readonly plan: Plan }) {
  const shop = useShop()
  const actions = useActions()
  const gauged = useApp((state) => state.progress.gauged)
  const undoable = useApp((state) => state.progress.last[view.id] !== undefined)
  const [part, setPart] = useState<(typeof parts)[number]['id']>('close')
  const [copy, setCopy] = useState(1)
  const [chosen, setChosen] = useState<string | null>(null)
  const loops = useMemo(() => loopsOf(plan.frame), [plan.frame])
  const loop = loops.find(({ id }) => id === chosen) ?? loops[0]
  const measured = useCallback(
    (of: string) => gauged[tickName(view.id, copy, of)]?.value,
    [gauged, view.id, copy],
  )
  const bench: Bench = {
    plan,
    shop,
    measured,
    onGauge: (of, value) => void actions.gauge(view.id, copy, of, value),
  }
  return (
    <div className="fitup">
      <div className="fit-top">
        <nav className="fit-nav" aria-label="Parts of the fit-up">
          {parts.map(({ id, label }) => (
            <button key={id} type="button" aria-pressed={part === id} onClick={() => setPart(id)}>
              {label}
            </button>
          ))}
        </nav>
        <button type="button" disabled={!undoable} onClick={() => void actions.undo(view.id)}>
          Undo
        </button>
      </div>
      <header className="fit-head">
        {loops.length > 1 && loop && (part === 'close' || part === 'square') && (
          <Pick
            label="What is on the table"
            value={loop.id}
            options={loops.map((one) => ({ value: one.id, label: sayLoop(one) }))}
            onChange={setChosen}
          />
        )}
        {part !== 'table' && <CopyPick quantity={plan.quantity} copy={copy} onChoose={setCopy} />}
      </header>
      <div className="fit-parts" key={`${loop?.id} ${copy}`}>
        {part === 'table' ? (
          <TableLayout loops={loops} bench={bench} />
        ) : part === 'stand' ? (
          <>
            <Stands loops={loops} bench={bench} />
            <Level bench={bench} />
          </>
        ) : !loop ? (
          <p>No part of this frame closes on itself: there is no last joint to fit.</p>
        ) : part === 'close' ? (
          <>
            <WillItClose loop={loop} bench={bench} />
            <BadJoint loop={loop} bench={bench} />
          </>
        ) : (
          <>
            <Outline loop={loop} />
            <SquareUp loop={loop} bench={bench} />
            <LieFlat loop={loop} bench={bench} />
          </>
        )}
      </div>
    </div>
  )
}

/** The parts of the work, in its order. */
const parts = [
  { id: 'close', label: 'Close' },
  { id: 'table', label: 'Table' },
  { id: 'square', label: 'Square and flat' },
  { id: 'stand', label: 'One on another' },
] as const

/** A loop without a name of its own is called by its first pieces. */
const sayLoop = ({ name, pieces, ring }: Loop): string =>
  ring ? name : `${pieces.length} pieces: ${name.length > 60 ? `${name.slice(0, 57)}…` : name}`
