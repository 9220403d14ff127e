import { copyName } from '../../core/facts/fold.ts'
import { useActions, useApp } from '../app.ts'

/** A copy that was tacked or welded and is wanted as steel again. Nothing is shown where nothing is joined. */
export function CutApart({ job, copy }: { job: string; copy: number }) {
  const actions = useActions()
  const joined = useApp((state) => state.progress.joined.includes(copyName({ job, copy })))
  if (!joined) return null
  return (
    <details className="cut-apart">
      <summary>Was copy {copy} cut apart?</summary>
      <p>
        Then all its steps are open again, and its pieces count as loose steel. The saw may recut those that
        are spare: cut the ends with weld on them off first. Undo takes this back.
      </p>
      <button type="button" onClick={() => void actions.cutApart(job, copy)}>
        Copy {copy} is cut apart
      </button>
    </details>
  )
}
