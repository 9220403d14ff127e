import { type Nest, type NestPiece, type NestSection, piecesIn } from '../nest.ts'
import type { Left, Part, Run } from '../plan-shapes.ts'
import type { Problem, Result } from '../result.ts'
import { badAll, good } from '../result.ts'
import { isRound } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { blankOf } from './blank-of.ts'
import { squareCuts } from './blanks.ts'
import { boxOf } from './box.ts'
import { planChain } from './chains.ts'
import { beyondPrinted, lyingPart } from './ends.ts'
import { quickest } from './figures.ts'
import { stickCuts } from './from-stick.ts'
import { sideBySide } from './gang.ts'
import { leftBy } from './left.ts'
import { gangsIn, lotOf } from './lot.ts'
import { extentOf } from './lying.ts'
import { type Chain, endCuts } from './miters.ts'
import { runOf } from './programs.ts'
import { unknownPart } from './refusals.ts'
import { seamsOf } from './seam-at-saw.ts'
import { seamFace } from './stick-demand.ts'
import type { Entry } from './stick-visits.ts'
import type { Lot, PartVisits } from './stretch.ts'
import type { Visit } from './visit.ts'
import { type OfSection, wholeOrder } from './whole-order.ts'

/** One section's work before its order is chosen. */
interface Work extends OfSection {
  readonly square: readonly Visit[]
  readonly partByPart: readonly PartVisits[]
  readonly left: readonly Left[]
  /** Where the saw takes more than one: those side by side that are alike in all their cuts. */
  readonly beside?: Lot
}

/**
 * What is done at the saws for a nest, in the way that each of its sections is cut. Square first: pass 1 cuts square
 * blanks (or pieces that need no miter) from the sticks, pass 2 miters their ends. From the stick: pieces leave it with
 * their final ends. Paired: one cut splits a blank into two pieces. Stops follow from the printed lengths, rounded once by
 * the shop's reading; the exact ones beside them give the part unrounded.
 *
 * What no saw of the shop can do is left, piece by piece, with the reason and ways out: compound ends that the saw has
 * no way to, a miter past its limits, a stop past its longest, a part too short to hold. Refused is the whole run where
 * the nest holds parts of another job, or the steel does not do.
 */
export function planRun(nest: Nest, parts: readonly Part[], shop: Shop): Result<Run> {
  const problems: Problem[] = []
  const works: Work[] = []
  for (const section of nest.sections) {
    const work = workOn(section, parts, shop)
    if (work.ok) works.push(work.value)
    else problems.push(...work.problems)
  }
  if (problems.length > 0) return badAll(problems)
  const sectionBySection = works.flatMap(({ square, chains }) => [...square, ...endCuts(chains)])
  const squareBeforeMiters = [
    ...works.flatMap(({ square }) => square),
    ...endCuts(works.flatMap(({ chains }) => chains)),
  ]
  // The naive order is among them, so that no plan takes longer.
  const naive = naively(works, parts)
  const best = quickest([sectionBySection, squareBeforeMiters, naive, sideBySide(naive)])
  const singly = wholeOrder(works, best) ?? best
  const beside = works.some((work) => work.beside)
    ? wholeOrder(
        works.map((work) => ({ ...work, lot: work.beside ?? work.lot })),
        singly,
      )
    : undefined
  const run = runOf(beside ?? singly, shop.reading)
  const left = works.flatMap((work) => work.left)
  return good(left.length > 0 ? { ...run, left } : run)
}

/**
 * Part by part in the order of the list: its blanks, then its miters. What lies behind other parts in its stick comes when
 * the list is gone through again.
 */
function naively(works: readonly Work[], parts: readonly Part[]): readonly Visit[] {
  const marks = parts.map(({ mark }) => mark)
  const turns = new Map<number, { readonly visits: Visit[]; readonly chains: Chain[] }>()
  for (const { partByPart, chains } of works)
    for (const { round, mark, visits } of partByPart) {
      const at = round * (marks.length + 1) + (marks.includes(mark) ? marks.indexOf(mark) : marks.length)
      const turn = turns.get(at) ?? { visits: [], chains: [] }
      turns.set(at, turn)
      turn.visits.push(...visits)
      const cut = new Set(visits.flatMap(({ cuts }) => cuts.map(({ keep }) => keep.id)))
      turn.chains.push(...chains.filter(([first]) => cut.has(first!.load)))
    }
  return [...turns]
    .sort(([one], [two]) => one - two)
    .flatMap(([, { visits, chains }]) => [...visits, ...endCuts(chains)])
}

function workOn(section: NestSection, parts: readonly Part[], shop: Shop): Result<Work> {
  const planner = planChain(section, parts, shop)
  const problems = new Map<string, Problem>()
  const chains: Chain[] = []
  const left: Left[] = []
  for (const stick of section.sticks)
    for (const piece of stick.pieces) {
      const chain = piece.blank ? planner(piece) : undefined
      if (chain?.ok) chains.push(chain.value)
      for (const problem of chain?.ok === false ? chain.problems : []) {
        if (problem.out) left.push(...leftBy(piecesIn(piece), problem))
        else problems.set(problem.text, problem)
      }
    }
  const known = new Set(parts.map(({ key }) => key))
  for (const piece of section.sticks.flatMap(({ pieces }) => pieces.flatMap(piecesIn)))
    if (!known.has(piece.key))
      for (const problem of problemsOf(unknownPart(piece))) problems.set(problem.text, problem)
  if (problems.size > 0) return badAll([...problems.values()])
  const off = offStick(section, parts, shop)
  if (!off.ok) return off
  // What stays in its bar is not mitered either.
  const bars = new Set(off.value.left.flatMap(({ of }) => of.map(({ piece }) => piece)))
  return good({
    square: off.value.visits,
    partByPart: off.value.partByPart,
    lot: off.value.lot,
    ...(off.value.beside ? { beside: off.value.beside } : {}),
    chains: chains.filter((chain) => !chain.some(({ keep }) => keep.makes?.some((id) => bars.has(id)))),
    left: [
      ...left.filter(({ piece }) => !bars.has(piece)),
      ...off.value.left.flatMap(({ of, problem }) => leftBy(of, problem)),
    ],
  })
}

const problemsOf = (refused: Result<unknown>): readonly Problem[] => (refused.ok ? [] : refused.problems)

type Piece = ReturnType<typeof piecesIn>[number]

/** What comes off the sticks of a section, and the pieces that stay in their bars. */
function offStick(
  section: NestSection,
  parts: readonly Part[],
  shop: Shop,
): Result<
  Pick<Work, 'partByPart' | 'lot' | 'beside'> & {
    readonly visits: readonly Visit[]
    readonly left: readonly { readonly of: readonly Piece[]; readonly problem: Problem }[]
  }
> {
  const marks = parts.map(({ mark }) => mark)
  const entries = new Map(
    section.sticks.flatMap(({ id, pieces }) =>
      pieces.map((piece) => {
        const blank = blankOf(piece, section, shop, id, parts)
        return [blank.keep.id, { piece, blank }] as const
      }),
    ),
  )
  const pieceOf = (id: string) => piecesIn(entries.get(id)!.piece)
  const sticks = section.sticks.filter(({ pieces }) => pieces.length > 0)
  const blankIn = (piece: NestPiece) => entries.get(piece.blank ?? piece.piece)!.blank
  if (section.way !== 'from the stick') {
    const cut = squareCuts(
      section,
      shop,
      sticks.map((stick) => ({ stick, blanks: stick.pieces.map(blankIn) })),
      marks,
    )
    if (!cut.ok) return cut
    const { visits, partByPart, left, sticks: open, bench } = cut.value
    const one = open.map((of) => [of])
    const beside = gangsIn(bench, open)
    return good({
      visits,
      partByPart,
      lot: lotOf(bench, one),
      ...(beside.length < open.length ? { beside: lotOf(bench, beside) } : {}),
      left: left.map(({ blank, problem }) => ({ of: pieceOf(blank.keep.id), problem })),
    })
  }
  const byKey = new Map(parts.map((part) => [part.key, part]))
  const box = boxOf(section.section, shop)
  const round = isRound(section.section) ? ({ round: true } as const) : {}
  const laid = sticks.map((stick) => ({
    stick,
    entries: stick.pieces.map((piece): Entry => {
      const { keep, exact, stop } = blankIn(piece)
      const part = byKey.get(piece.key)!
      const [lead, trail] = piece.ends
      const angled = !piece.blank && part.shape !== 'square'
      const mid = angled ? lyingPart(part, box).mid : stop.mm
      return {
        lying: {
          lead: { p: lead.p, q: lead.q },
          trail: { p: trail.p, q: trail.q },
          mid,
          depth: box.big,
          height: box.small,
          ...round,
        },
        beyond: angled ? beyondPrinted(part) : exact - stop.mm,
        keep: angled ? { ...keep, length: extentOf(lyingPart(part, box)) } : keep,
        pinned: angled && seamsOf(part, piece).length > 0,
      }
    }),
  }))
  const used = parts.filter(({ key }) => section.demand.some((each) => each.key === key))
  const cut = stickCuts(section, shop, laid, seamFace(used, section.section, shop), marks)
  if (!cut.ok) return cut
  const { left, ...laidOut } = cut.value
  return good({
    ...laidOut,
    left: left.map(({ entry, problem }) => ({ of: pieceOf(entry.keep.id), problem })),
  })
}
