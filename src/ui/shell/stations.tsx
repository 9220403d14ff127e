import { lazy } from 'react'
import type { JobView } from '../../app/state.ts'
import { Jobs } from '../jobs/jobs.tsx'
import { Sizes } from '../sizes/sizes.tsx'
import type { JobStation } from './route.ts'

/** What a station of one job is given. `at`: what of it is shown, from the address, as the id of a set-up. */
export interface StationProps {
  readonly view: JobView
  readonly at?: string | undefined
}

const Shop = lazy(() => import('../shop/shop.tsx').then(({ Shop }) => ({ default: Shop })))

export const JobsStation = Jobs
export const ShopStation = Shop

/** One station of one job. Those that are not needed for the first look are loaded when they are opened. */
export function JobStationView({ station, view, at }: StationProps & { readonly station: JobStation }) {
  if (station === 'sizes') return <Sizes view={view} />
  return (
    <p className="plain-page dim">
      {station} of {view.job.name} {at}
    </p>
  )
}
