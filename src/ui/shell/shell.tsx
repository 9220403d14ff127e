import '../theme.css'
import '../fields/fields.css'
import '../drawing/drawing.css'
import '../drawing/sketch.css'
import './shell.css'
import './install.ts'
import './given.ts'
import { Component, type ReactNode, Suspense, useEffect, useRef } from 'react'
import { useActions, useApp } from '../app.ts'
import { useAwake } from './awake.ts'
import { StartingShop, TroubleBanner, UpdateBanner, type Updates } from './banner.tsx'
import { Rescue } from './rescue.tsx'
import { hrefOf, type JobStation, type Route, useRoute } from './route.ts'
import { JobStationView, JobsStation, LinkStation, SharedStation, ShopStation } from './stations.tsx'
import { Strip } from './strip.tsx'

const floor: readonly JobStation[] = ['stock', 'saw', 'fit-up', 'weld', 'finish']

/** A station that breaks is said, and the strip stays in reach. */
class Guard extends Component<
  { readonly children: ReactNode; readonly at: string },
  { fault: string | null }
> {
  override state = { fault: null }

  static getDerivedStateFromError(fault: unknown) {
    return { fault: fault instanceof Error ? fault.message : String(fault) }
  }

  override componentDidUpdate(before: { readonly at: string }) {
    if (before.at !== this.props.at && this.state.fault !== null) this.setState({ fault: null })
  }

  override render() {
    if (this.state.fault === null) return this.props.children
    return (
      <div className="plain-page" role="alert">
        <h1>This station cannot be shown</h1>
        <p>What was checked off is on disk. The program says: {this.state.fault}</p>
        <p>
          <button type="button" onClick={() => location.reload()}>
            Load it again
          </button>
        </p>
      </div>
    )
  }
}

function Lost() {
  return (
    <div className="plain-page">
      <h1>Nothing stands at this address</h1>
      <p>
        <a className="button" href="#/">
          All jobs
        </a>
      </p>
    </div>
  )
}

function InJob({ job, station, at }: { job: string; station: JobStation; at: string | undefined }) {
  const { show } = useActions()
  const known = useApp((state) => state.jobs.some(({ id }) => id === job))
  const view = useApp((state) => state.views[job])
  useEffect(() => {
    if (known) show(job)
  }, [known, job, show])
  if (!known)
    return (
      <div className="plain-page">
        <h1>This job is not on this device</h1>
        <p>It may have been removed, or the link comes from another device.</p>
        <p>
          <a className="button" href="#/">
            All jobs
          </a>
        </p>
      </div>
    )
  if (!view) return <Loading />
  return <JobStationView station={station} view={view} at={at} />
}

const Loading = () => (
  <p className="plain-page dim" role="status">
    Loading …
  </p>
)

/** The disk cannot be read: what can still be done, the way out first. */
function NoDisk() {
  const trouble = useApp((state) => state.trouble)
  const { open } = useActions()
  return (
    <div className="plain-page" role="alert">
      <h1>The jobs cannot be opened now</h1>
      <p>{trouble ?? 'The browser gives no access to its storage.'}</p>
      <p className="keys-row">
        <button type="button" className="go" onClick={() => location.reload()}>
          Load the page again
        </button>
        <button type="button" onClick={() => void open()}>
          Try again
        </button>
      </p>
      <h2>If it stays so</h2>
      <p>
        Nothing was deleted by this, and do not clear the browser’s data. If jobs were kept here before, save
        a rescue file: it holds every row that the browser still gives, and “Open a backup or a job” in the
        Shop station of a sound device takes what can be read of it.
      </p>
      <Rescue />
    </div>
  )
}

function Body({ route }: { route: Route }) {
  const phase = useApp((state) => state.phase)
  if (phase === 'loading') return <Loading />
  if (phase === 'failed') return <NoDisk />
  if ('job' in route) return <InJob job={route.job} station={route.station} at={route.at} />
  switch (route.station) {
    case 'jobs':
      return <JobsStation />
    case 'shop':
      return <ShopStation />
    case 'shared':
      return <SharedStation />
    case 'open':
      return <LinkStation link={route.rest} />
    default:
      return <Lost />
  }
}

/** The frame round every station: strip, banners, the station itself. */
export function Shell({ updates }: { updates: Updates }) {
  const route = useRoute()
  const shop = useApp((state) => state.shop)
  const jobs = useApp((state) => state.jobs)
  // The job that was open last stays in the strip while Jobs or Shop is looked at.
  const last = useRef<string | null>(null)
  if ('job' in route) last.current = route.job
  const job = jobs.some(({ id }) => id === last.current) ? last.current : null
  const name = jobs.find(({ id }) => id === job)?.name
  const onFloor = floor.some((station) => station === route.station)
  useAwake(onFloor)

  const { daylight, hand } = shop
  useEffect(() => {
    document.documentElement.toggleAttribute('data-daylight', daylight)
    document.documentElement.dataset.hand = hand
    const color = document.querySelector('meta[name="theme-color"]')
    color?.setAttribute('content', daylight ? '#ffffff' : '#0b1d3a')
  }, [daylight, hand])

  // A new station starts at its top, as a new page does.
  const place = 'job' in route ? `${route.job}/${route.station}` : route.station
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the place changes, not when it is read
  useEffect(() => {
    // Newer browsers give back a promise, which is no cleanup.
    void window.scrollTo(0, 0)
  }, [place])

  return (
    <div className={onFloor ? 'app floor' : 'app'}>
      <button type="button" className="skip" onClick={skipToMain}>
        Skip to the station
      </button>
      <Strip here={'job' in route || route.station === 'shop' ? route.station : 'jobs'} job={job} />
      {job !== null && name !== undefined && 'job' in route && (
        <header className="job-line">
          <h1>
            <a href={hrefOf({ station: 'sizes', job })}>{name}</a>
          </h1>
        </header>
      )}
      <TroubleBanner />
      <StartingShop />
      <UpdateBanner updates={updates} />
      <main id="main" tabIndex={-1}>
        <Guard at={place}>
          <Suspense fallback={<Loading />}>
            <Body route={route} />
          </Suspense>
        </Guard>
      </main>
    </div>
  )
}

/** A link would change the address, whose # part is the route. */
const skipToMain = () => document.getElementById('main')?.focus()
