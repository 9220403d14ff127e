import type { JobView } from '../../app/state.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { useShop } from '../app.ts'
import { hrefOf } from '../shell/route.ts'
import { afterSaw } from './after-saw.ts'
import { BladesChanged } from './other-blade.tsx'
import { Rest } from './rest.tsx'
import { Spares } from './waiting.tsx'

/**
 * The job is no longer what the accepted nest cuts: nothing may be cut by it until the rest is planned again. Where all
 * that it asks for is cut there is nothing to plan.
 */
export function Changed(props: { view: JobView; plan: Plan; onUndo?: () => void }) {
  const { view, plan, onUndo } = props
  const shop = useShop()
  const { allCut } = view.nesting
  const next = afterSaw(plan)
  return (
    <section className="station-state">
      <h1>{allCut ? 'All of it is cut' : 'What is left is to be planned anew'}</h1>
      <p>
        {view.nesting.state === 'accepted' && view.nesting.text
          ? view.nesting.text
          : 'What is cut stays cut; what is still open is planned again on the steel that is left.'}
      </p>
      {!allCut && <BladesChanged shop={shop} />}
      <Spares spares={view.spares} shop={shop} />
      {allCut ? (
        <a className="button go" href={hrefOf({ station: next.station, job: view.id })}>
          Go to {next.name}
        </a>
      ) : (
        <Rest view={view} />
      )}
      {onUndo && (
        <button type="button" onClick={onUndo}>
          Undo the last thing done
        </button>
      )}
    </section>
  )
}
