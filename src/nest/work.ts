/**
 * What a search may still do, in counted steps: the same problem and the same budget give the same nest. A clock may
 * only stop it, through `stop`, which is asked now and then.
 */
export interface Work {
  left: number
  /** True once the budget is spent or `stop` said so; it stays true. */
  over: boolean
  untilAsked: number
  readonly stop: () => boolean
}

/** Steps between two questions to `stop`: well under a millisecond. */
const askEvery = 100_000

export const openWork = (steps: number, stop: () => boolean = () => false): Work => ({
  left: steps,
  over: false,
  untilAsked: askEvery,
  stop,
})

/** A share of what is left, for a part of the search that must not eat all; what it uses is taken from the whole. */
export function within<T>(work: Work, steps: number, run: (share: Work) => T): T {
  const share = shareOf(work, steps)
  const result = run(share.work)
  share.close()
  return result
}

/** The same, open until it is closed. */
export function shareOf(work: Work, steps: number): { readonly work: Work; close(): void } {
  const share = openWork(Math.min(steps, work.left), work.stop)
  const given = share.left
  return {
    work: share,
    close() {
      spend(work, given - Math.max(0, share.left))
      if (share.over && share.left > 0) work.over = true
    },
  }
}

/** Takes steps; false when there are none left and the caller must come back with what it has. */
export function spend(work: Work, steps: number): boolean {
  work.left -= steps
  work.untilAsked -= steps
  if (work.left <= 0) work.over = true
  else if (work.untilAsked <= 0) {
    work.untilAsked = askEvery
    if (work.stop()) work.over = true
  }
  return !work.over
}
