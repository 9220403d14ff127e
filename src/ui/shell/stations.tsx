import { type ComponentType, lazy } from 'react'
import type { JobView } from '../../app/state.ts'
import type { JobStation } from './route.ts'

/** What a station of one job is given. `at`: what of it is shown, from the address, as the id of a set-up. */
export interface StationProps {
  readonly view: JobView
  readonly at?: string | undefined
}

// Stations are loaded when they are opened; the service worker keeps them from the first visit on, so they open with
// the network gone as well.
const Jobs = lazy(() => import('../jobs/jobs.tsx').then(({ Jobs }) => ({ default: Jobs })))
const Link = lazy(() => import('../jobs/link.tsx').then(({ Link }) => ({ default: Link })))
const Shared = lazy(() => import('../jobs/shared.tsx').then(({ Shared }) => ({ default: Shared })))
const Sizes = lazy(() => import('../sizes/sizes.tsx').then(({ Sizes }) => ({ default: Sizes })))
const Stock = lazy(() => import('../stock/stock.tsx').then(({ Stock }) => ({ default: Stock })))
const Saw = lazy(() => import('../saw/saw.tsx').then(({ Saw }) => ({ default: Saw })))
const FitUp = lazy(() => import('../fitup/fitup.tsx').then(({ FitUp }) => ({ default: FitUp })))
const Weld = lazy(() => import('../weld/weld.tsx').then(({ Weld }) => ({ default: Weld })))
const Finish = lazy(() => import('../finish/finish.tsx').then(({ Finish }) => ({ default: Finish })))
const Paper = lazy(() => import('../paper/paper.tsx').then(({ Paper }) => ({ default: Paper })))
const Shop = lazy(() => import('../shop/shop.tsx').then(({ Shop }) => ({ default: Shop })))

const stations: Readonly<Record<JobStation, ComponentType<StationProps>>> = {
  sizes: Sizes,
  stock: Stock,
  saw: Saw,
  'fit-up': FitUp,
  weld: Weld,
  finish: Finish,
  paper: Paper,
}

export const JobsStation = Jobs
export const ShopStation = Shop
export const LinkStation = Link
export const SharedStation = Shared

/** One station of one job. */
export function JobStationView({ station, ...props }: StationProps & { readonly station: JobStation }) {
  const Station = stations[station]
  return <Station {...props} />
}
