import { known } from '../facts/known.ts'
import type { Fact } from '../facts.ts'

// Times as the tablets' clocks said them. They are shown and never decide anything: clocks go wrong.

export type Stage = 'saw' | 'fit-up' | 'weld' | 'finish'

export const stages: readonly Stage[] = ['saw', 'fit-up', 'weld', 'finish']

/** Longer without a check-off is a pause and not work, minutes. */
export const pause = 20

export interface StageTime {
  readonly stage: Stage
  /** As the clock wrote them: ISO times of the first and last thing done. */
  readonly first: string
  readonly last: string
  /** Minutes from one check-off to the next, pauses left out; what came before the first is not known. */
  readonly minutes: number
}

/** Name under which the minutes that a person gives are kept. */
export const minutesName = (stage: Stage): string => `minutes:${stage}`

const finishNames = /^(size|floor):/

/** At which station something was done; undefined for what was done at none. */
export function stageOf(fact: Fact): Stage | undefined {
  const read = known(fact)
  switch (read?.kind) {
    case 'cut':
    case 'miscut':
    case 'measured':
    case 'kept':
    case 'scrapped':
    case 'stopMoved':
      return 'saw'
    case 'tacked':
    case 'welded':
    case 'setTo':
      return 'weld'
    case 'checked':
      return read.body.step.startsWith('finish:') ? 'finish' : 'weld'
    case 'gauged': {
      if (finishNames.test(read.body.of)) return 'finish'
      if (read.body.of.startsWith('minutes:')) return undefined
      return read.body.of.includes('check:') ? 'weld' : 'fit-up'
    }
    default:
      return undefined
  }
}

/** Minutes of an ISO time since the year 0, any calendar right; undefined where the text is no such time. */
function minuteOf(at: string): number | undefined {
  const read = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d(?:\.\d+)?)Z$/.exec(at)
  if (!read) return undefined
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = read.slice(1).map(Number)
  // Days by the count of the civil calendar, years beginning in March.
  const y = month > 2 ? year : year - 1
  const m = month > 2 ? month - 3 : month + 9
  const days = 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400)
  return (days + Math.floor((153 * m + 2) / 5) + day) * 1440 + hour * 60 + minute + second / 60
}

/** Times by station: of the job's cuts, which serve all its copies, and of what was done on this copy. */
export function timesOf(facts: readonly Fact[], job: string, copy: number): readonly StageTime[] {
  return stages.flatMap((stage) => {
    const own = facts.filter(
      (fact) => fact.job === job && stageOf(fact) === stage && (stage === 'saw' || (fact.copy ?? 1) === copy),
    )
    const told = own.flatMap(({ at, device }) => {
      const minute = minuteOf(at)
      return minute === undefined ? [] : [{ at, device, minute }]
    })
    const inOrder = told.sort((a, b) => a.minute - b.minute)
    const first = inOrder[0]
    const last = inOrder.at(-1)
    if (!first || !last) return []
    // Each tablet by its own clock: two that work at once are two people.
    const devices = new Set(inOrder.map(({ device }) => device))
    let minutes = 0
    for (const device of devices) {
      const its = inOrder.filter((one) => one.device === device)
      for (const [at, one] of its.entries()) {
        const since = at === 0 ? 0 : one.minute - its[at - 1]!.minute
        if (since <= pause) minutes += since
      }
    }
    return [{ stage, first: first.at, last: last.at, minutes }]
  })
}
