import type { AppState, JobView } from '../../app/state.ts'
import { count, type Says, saysOf } from '../words.ts'
import type { JobStation } from './route.ts'

/** What of a station is done, in as few words as the strip has room for. Empty: nothing to say. */
export function progressOf(station: JobStation, view: JobView | undefined, state: AppState): string {
  if (!view) return ''
  if (station === 'sizes') return view.problems.length > 0 ? `${view.problems.length} to put right` : ''
  if (station === 'stock') return stockWords(view, saysOf(state.shop))
  if (station === 'saw') return sawWords(view)
  if (station === 'weld') return weldWords(view, state)
  return ''
}

/** How many are done, of all. */
export interface Done {
  readonly done: number
  readonly of: number
}

/** Cuts of the saws, and pieces that are left to the hand. */
export function cutsDone({ cuts, byHand }: JobView): Done {
  const all = [...cuts, ...byHand]
  return { done: all.filter(({ done }) => done !== undefined).length, of: all.length }
}

/** Steps of the weld list. Until the first is ticked nothing is counted: the list is not wanted while a size is typed. */
export function weldsDone(view: JobView, ticked: Readonly<Record<string, string>>): Done {
  if (!Object.keys(ticked).some((key) => key.startsWith(`${view.id}/`))) return { done: 0, of: 0 }
  const steps = view.plan?.weld.steps ?? []
  let done = 0
  for (let copy = 1; copy <= view.job.quantity; copy += 1)
    for (const step of steps) if (ticked[`${view.id}/${copy}/${step.id}`] !== undefined) done += 1
  return { done, of: steps.length * view.job.quantity }
}

function stockWords(view: JobView, says: Says): string {
  if (view.nesting.state === 'working') return 'working …'
  if (view.nesting.state === 'failed') return 'does not fit'
  const sticks = view.nest?.sections.reduce((sum, section) => sum + section.sticks.length, 0) ?? 0
  return sticks > 0 ? count(sticks, says.stick, says.sticks) : ''
}

function sawWords(view: JobView): string {
  if (view.refused.length > 0) return 'stopped'
  const { done, of } = cutsDone(view)
  return of > 0 ? `${done} of ${of}` : ''
}

function weldWords(view: JobView, state: AppState): string {
  const { done, of } = weldsDone(view, state.progress.ticked)
  return of > 0 ? `${done} of ${of}` : ''
}
