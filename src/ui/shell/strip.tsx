import { useState } from 'react'
import { useApp } from '../app.ts'
import { progressOf } from './progress.ts'
import { hrefOf, jobStations, type Station } from './route.ts'

interface Stop {
  readonly station: Station
  readonly label: string
  readonly href: string
  readonly progress: string
}

const labels: Readonly<Record<Station, string>> = {
  jobs: 'Jobs',
  sizes: 'Sizes',
  stock: 'Stock',
  saw: 'Saw',
  'fit-up': 'Fit-up',
  weld: 'Weld',
  finish: 'Finish',
  paper: 'Paper',
  shop: 'Shop',
}

function useStops(job: string | null): readonly Stop[] {
  const jobs = useApp((state) => state.jobs.length)
  const state = useApp((all) => all)
  const view = job === null ? undefined : state.views[job]
  const own: readonly Stop[] =
    job === null
      ? []
      : jobStations.map((station) => ({
          station,
          label: labels[station],
          href: hrefOf({ station, job }),
          progress: progressOf(station, view, state),
        }))
  return [
    { station: 'jobs', label: labels.jobs, href: '#/', progress: jobs > 0 ? String(jobs) : '' },
    ...own,
    { station: 'shop', label: labels.shop, href: '#/shop', progress: '' },
  ]
}

function StopLink({ stop, here, onGo }: { stop: Stop; here: boolean; onGo?: () => void }) {
  return (
    <a
      href={stop.href}
      className={here ? 'stop here' : 'stop'}
      aria-current={here ? 'page' : undefined}
      onClick={onGo}
    >
      <span>{stop.label}</span>
      {stop.progress && <small>{stop.progress}</small>}
    </a>
  )
}

/**
 * The strip of stations with the progress of each. Where there is no room for all of them: the station before,
 * this one, the next, and a button that lists all.
 */
export function Strip({ here, job }: { here: Station; job: string | null }) {
  const stops = useStops(job)
  const [open, setOpen] = useState(false)
  const at = Math.max(
    0,
    stops.findIndex((stop) => stop.station === here),
  )
  const near = [stops[at - 1], stops[at], stops[at + 1]]
  return (
    <nav className="strip" aria-label="Stations">
      <div className="all-stops">
        {stops.map((stop) => (
          <StopLink key={stop.station} stop={stop} here={stop.station === here} />
        ))}
      </div>
      <div className="near-stops">
        {near.map((stop, index) =>
          stop ? (
            <StopLink key={stop.station} stop={stop} here={index === 1} onGo={() => setOpen(false)} />
          ) : (
            <span key={index === 0 ? 'before' : 'after'} className="stop none" />
          ),
        )}
        <button
          type="button"
          className="list-stops"
          aria-expanded={open}
          aria-label="All stations"
          onClick={() => setOpen(!open)}
        >
          <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
            <path d="M3 6h18M3 12h18M3 18h18" stroke="currentColor" strokeWidth="2.5" />
          </svg>
        </button>
      </div>
      {open && (
        <div className="listed-stops">
          {stops.map((stop) => (
            <StopLink
              key={stop.station}
              stop={stop}
              here={stop.station === here}
              onGo={() => setOpen(false)}
            />
          ))}
        </div>
      )}
    </nav>
  )
}
