import { useMemo, useState } from 'react'
import { buildOf } from '../../core/builds/index.ts'
import { frameOf } from '../../core/draft.ts'
import type { Job } from '../../core/job.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { SmallDrawing } from '../drawing/small.tsx'
import { fileName, saveFile } from '../fields/files.ts'
import { cutsDone } from '../shell/progress.ts'
import { go, hrefOf } from '../shell/route.ts'
import { count } from '../words.ts'
import { BuildPicture } from './build-picture.tsx'
import { Carry } from './carry.tsx'
import { sizeWords } from './size-words.ts'

/** How far the work is: known to the cut once the job was planned, else by the pieces that were cut. */
function useWork(job: Job): string {
  const view = useApp((state) => state.views[job.id])
  const made = useApp((state) => state.progress.made)
  if (view && view.cuts.length > 0) {
    const { done, of } = cutsDone(view)
    return done === 0 ? `not begun, ${count(of, 'cut')}` : `${done} of ${of} cuts done`
  }
  const own = made.filter((piece) => piece.job === job.id)
  const cut = own.filter(({ stage }) => stage === 'piece').length
  if (cut > 0) return `${count(cut, 'piece')} cut`
  return own.length === 0 ? 'not begun' : `begun, ${count(own.length, 'cut')} made`
}

export function JobCard({ job, onRemove }: { readonly job: Job; readonly onRemove: () => void }) {
  const shop = useShop()
  const { copyJob, fileOf } = useActions()
  const work = useWork(job)
  const [carrying, setCarrying] = useState(false)
  const frame = useMemo(() => frameOf(job, shop), [job, shop])
  const build = buildOf(job.build.kind)
  const copy = async () => go({ station: 'sizes', job: await copyJob(job.id) })
  return (
    <li className="job-card">
      <a className="job-link" href={hrefOf({ station: 'sizes', job: job.id })}>
        <span className="job-picture">
          {frame.ok ? (
            <SmallDrawing frame={frame.value} />
          ) : (
            build && <BuildPicture build={build} size={96} />
          )}
        </span>
        <span className="job-words">
          <strong className="job-name">{job.name}</strong>
          <span className="dim">
            {build?.title ?? job.build.kind}
            {job.quantity > 1 && `, ${job.quantity} of them`}
          </span>
          <span>{frame.ok ? sizeWords(frame.value, shop) : 'its sizes cannot be built yet'}</span>
          <span className={work.startsWith('not') ? 'state' : 'state cut'}>{work}</span>
        </span>
      </a>
      <div className="keys-row">
        <button type="button" aria-label={`Copy ${job.name}`} onClick={() => void copy()}>
          Copy
        </button>
        <button
          type="button"
          aria-label={`Save a file of ${job.name}`}
          onClick={() => saveFile(fileName(job.name, 'tube-job.json'), fileOf(job.id))}
        >
          Save a file
        </button>
        <button
          type="button"
          aria-label={`Carry ${job.name} to another device`}
          aria-expanded={carrying}
          onClick={() => setCarrying(!carrying)}
        >
          To another device
        </button>
        <button type="button" aria-label={`Remove ${job.name}`} onClick={onRemove}>
          Remove
        </button>
      </div>
      {carrying && <Carry job={job} />}
    </li>
  )
}
