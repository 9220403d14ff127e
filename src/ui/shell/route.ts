import { navigate, useHashLocation } from 'wouter/use-hash-location'

/** Stations of one job, in the order in which steel goes through them. */
export const jobStations = ['sizes', 'stock', 'saw', 'fit-up', 'weld', 'finish', 'paper'] as const
export type JobStation = (typeof jobStations)[number]
export type Station = 'jobs' | JobStation | 'shop'

export type Route =
  | { readonly station: 'jobs' | 'shop' }
  /** What another program shared with this one. */
  | { readonly station: 'shared' }
  /** `at`: what of the station is shown, as the id of a set-up. */
  | { readonly station: JobStation; readonly job: string; readonly at?: string }
  /** A job carried in a link. */
  | { readonly station: 'open'; readonly rest: string }
  | { readonly station: 'lost'; readonly path: string }

/** Where a link or a button can lead. */
export type Place = Exclude<Route, { station: 'open' | 'lost' }>

const isJobStation = (word: string): word is JobStation => (jobStations as readonly string[]).includes(word)

const decoded = (piece: string): string | null => {
  try {
    return decodeURIComponent(piece)
  } catch {
    return null
  }
}

/** Reads `/`, `/shop`, `/shared`, `/job/ID/STATION[/SETUP]`, `/open/…`. The id of a set-up may hold slashes. */
export function readRoute(path: string): Route {
  const pieces = path.split('/').filter((piece) => piece !== '')
  if (pieces.length === 0) return { station: 'jobs' }
  if (pieces.length === 1 && (pieces[0] === 'shop' || pieces[0] === 'shared')) return { station: pieces[0] }
  if (pieces[0] === 'open') return { station: 'open', rest: decoded(pieces.slice(1).join('/')) ?? '' }
  const [first, id, station = 'sizes', ...rest] = pieces
  const job = id === undefined ? null : decoded(id)
  const at = decoded(rest.join('/'))
  if (first !== 'job' || !job || !isJobStation(station) || at === null) return { station: 'lost', path }
  return at ? { station, job, at } : { station, job }
}

/** Path after the `#`. */
export function pathOf(route: Place): string {
  if (route.station === 'jobs') return '/'
  if (route.station === 'shop' || route.station === 'shared') return `/${route.station}`
  if (!('job' in route)) return '/'
  const at = route.at ? `/${route.at.split('/').map(encodeURIComponent).join('/')}` : ''
  return `/job/${encodeURIComponent(route.job)}/${route.station}${at}`
}

export const hrefOf = (route: Place): string => `#${pathOf(route)}`

export function useRoute(): Route {
  const [path] = useHashLocation()
  return readRoute(path)
}

export const go = (route: Place): void => navigate(pathOf(route))
