import { type Bench, type Blank, byShare, type Loaded, longestFirst, type Share } from './blanks.ts'
import { mayLieBeside, sameStrokes } from './gang.ts'
import { atRest } from './setting.ts'
import type { Lot, StickCuts, StickShare, Stretch } from './stretch.ts'
import type { Visit } from './visit.ts'

// Square cuts of sticks, and of sticks side by side, as what the best order of all is looked for in.

/** Cuts of one stop in an order that is the same on every stick. */
const inList = (blanks: readonly Blank[]): readonly Blank[] =>
  longestFirst(
    [...blanks].sort((one, two) => {
      const [first, second] = [one, two].map(({ keep }) => `${keep.mark} ${keep.key}`)
      return first! < second! ? -1 : first! > second! ? 1 : 0
    }),
  )

/** Sticks that are alike in all their cuts together, as many as the saw takes; every other one by itself. */
export function gangsIn(bench: Bench, sticks: readonly Loaded[]): readonly (readonly Loaded[])[] {
  const most = bench.saw.gang ?? 1
  const gangs: { readonly of: Loaded[]; readonly visit: Visit | undefined }[] = []
  for (const of of sticks) {
    const laid = byShare(bench, [{ of, blanks: inList(of.blanks) }])
    const [visit, more] = laid.ok ? laid.value[0]! : []
    const whole = visit && !more && mayLieBeside(visit) ? visit : undefined
    const gang = gangs.find(
      (each) => whole && each.visit && each.of.length < most && sameStrokes(each.visit, whole),
    )
    if (gang) gang.of.push(of)
    else gangs.push({ of: [of], visit: whole })
  }
  return gangs.map(({ of }) => of)
}

/** The lot of these gangs; a gang of one is a stick by itself. */
export function lotOf(bench: Bench, gangs: readonly (readonly Loaded[])[]): Lot {
  const sticks = gangs.map((gang) => stickCuts(bench, gang))
  const shareOf = (of: Loaded, { stick, stretches, last }: StickShare): Share => {
    const blanks = stretches.flatMap((at) =>
      inList(of.blanks.filter(({ keep }) => sticks[stick]!.stretches[at]!.keeps.includes(keep.id))),
    )
    const hand = blanks.find(({ keep }) => keep.id === last)
    return { of, blanks: hand ? [...blanks.filter((blank) => blank !== hand), hand] : blanks }
  }
  const lay: Lot['lay'] = (shares) => {
    const laid = byShare(
      bench,
      shares.flatMap((share) => gangs[share.stick]!.map((of) => shareOf(of, share))),
    )
    if (!laid.ok) return undefined
    const visits: (readonly Visit[])[] = []
    let at = 0
    for (const { stick } of shares) {
      const own = laid.value.slice(at, at + gangs[stick]!.length)
      at += own.length
      if (own.length > 1 && own.some(({ length }) => length !== 1)) return undefined
      const [first, ...others] = own.flat()
      visits.push(
        own.length === 1 ? own[0]! : [first!, ...others.map((each) => ({ ...each, beside: first!.load }))],
      )
    }
    return visits
  }
  return { sticks, lay }
}

/** Stops of a stick, or of those beside it. One that must be held in two ways is cut the longest first. */
function stickCuts(bench: Bench, gang: readonly Loaded[]): StickCuts {
  const { saw } = bench
  const of = gang[0]!
  const laid = byShare(bench, [{ of, blanks: longestFirst(of.blanks) }])
  const visits = laid.ok ? laid.value[0]! : []
  const stretches = visits.flatMap(({ stopSide, cuts }, visit): Stretch[] =>
    [...new Set(cuts.map(({ stop }) => stop.mm))].map((mm, place) => ({
      saw,
      stopSide,
      setting: atRest,
      mm,
      longSide: 'fence',
      keeps:
        gang.length > 1
          ? gang.flatMap(({ blanks }) =>
              blanks.filter(({ stop }) => stop.mm === mm).map(({ keep }) => keep.id),
            )
          : cuts.filter(({ stop }) => stop.mm === mm).map(({ keep }) => keep.id),
      ...(visit > 0 && place === 0 ? { anew: true } : {}),
    })),
  )
  return { stretches, inOrder: visits.length > 1, beside: gang.length }
}
