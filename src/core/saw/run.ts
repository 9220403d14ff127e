import type { Nest, NestPiece, NestSection } from '../nest.ts'
import { sawFor } from '../parts/demand.ts'
import type { Part, Product, Run, Shown } from '../plan-shapes.ts'
import { showLength } from '../reading/show.ts'
import type { Problem, Result } from '../result.ts'
import { badAll, good } from '../result.ts'
import { sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { stepSlack } from '../tolerance.ts'
import { fromSteps, type Mm, stepsNearest } from '../units.ts'
import { type Blank, type Loaded, squareCuts } from './blanks.ts'
import { beyondPrinted, cutEnds } from './ends.ts'
import { quickest } from './figures.ts'
import { halfKey } from './half.ts'
import { pieceHolding } from './hold.ts'
import { extentOf } from './lying.ts'
import { type Chain, endCuts } from './miters.ts'
import { runOf } from './programs.ts'
import { otherWay, unknownPart } from './refusals.ts'
import { seamAt, seamsOf } from './seam-at-saw.ts'
import type { Visit } from './visit.ts'
import type { EndCut } from './ways.ts'

/** One section's work before its order is chosen. */
interface Work {
  readonly square: readonly Visit[]
  readonly chains: readonly Chain[]
}

/**
 * What is done at the saws for a nest cut square first: pass 1 cuts square blanks (or pieces that need no miter) from
 * the sticks, pass 2 miters their ends. Stops follow from the printed lengths, rounded once by the shop's reading; the
 * exact ones beside them give the part unrounded.
 *
 * Refused, each with a way out: parts that are not in the nest's job, compound ends that the saw has no way to, a miter
 * past the saw's limits, a stop past its longest, a part too short to hold.
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
  return good(runOf(quickest([sectionBySection, squareBeforeMiters]), shop.reading))
}

function workOn(section: NestSection, parts: readonly Part[], shop: Shop): Result<Work> {
  if (section.way !== 'square first') return otherWay(section.way)
  const planner = planChain(section, parts, shop)
  const problems = new Map<string, Problem>()
  const chains: Chain[] = []
  const sticks: Loaded[] = []
  for (const stick of section.sticks) {
    const blanks: Blank[] = []
    for (const piece of stick.pieces) {
      blanks.push(blankOf(piece, section, shop, stick.id, parts))
      if (!piece.blank) continue
      const chain = planner(piece)
      if (chain.ok) chains.push(chain.value)
      else for (const problem of chain.problems) problems.set(problem.text, problem)
    }
    if (blanks.length > 0) sticks.push({ stick, blanks })
  }
  if (problems.size > 0) return badAll([...problems.values()])
  const square = squareCuts(section, shop, sticks)
  return square.ok ? good({ square: square.value, chains }) : square
}

/** Length of what leaves the stick; the whole step that floating point moved it off is put back. */
function lengthInStick({ ends: [lead, trail] }: NestPiece): Mm {
  const length = lead.x - trail.x
  const whole = fromSteps(stepsNearest(length))
  return Math.abs(length - whole) <= stepSlack ? whole : length
}

function blankOf(
  piece: NestPiece,
  { section }: NestSection,
  shop: Shop,
  stick: string,
  parts: readonly Part[],
): Blank {
  const part = parts.find(({ key }) => key === piece.key)
  // A finished piece is as long as it is printed, which in decimal inches is no whole step of the nest.
  const planned = (!piece.blank && part?.printed.length.mm) || lengthInStick(piece)
  const exact = planned + (part ? beyondPrinted(part) : 0)
  const made = { from: stick, mark: piece.mark, copy: piece.copy, job: piece.job, makes: [piece.piece] }
  const keep: Product = piece.blank
    ? {
        ...made,
        id: piece.blank,
        kind: 'blank',
        key: blankKey(sectionKey(section), planned),
        length: planned,
      }
    : { ...made, id: piece.piece, kind: 'piece', key: piece.key, length: planned }
  return { kind: piece.blank ? 'blank' : 'square', exact, stop: shownStop(planned, shop), keep }
}

/** The one number to set: how the exact stop lies beside it is no business of the person at the saw. */
function shownStop(exact: Mm, { reading }: Shop): Shown {
  const { mm, text, unit } = showLength(exact, reading)
  return { mm, text, unit }
}

const blankKey = (section: string, length: Mm): string => `${section} | blank ${stepsNearest(length)}`

/** Plans the end cuts of one piece; equal pieces are planned once. */
function planChain(section: NestSection, parts: readonly Part[], shop: Shop) {
  const planned = new Map<string, Result<readonly EndCut[]>>()
  const byKey = new Map(parts.map((part) => [part.key, part]))
  const cutsFor = (piece: NestPiece): Result<readonly EndCut[]> => {
    const part = byKey.get(piece.key)
    return part ? cutEnds(part, lengthInStick(piece), section.section, shop) : unknownPart(piece)
  }
  return (piece: NestPiece): Result<Chain> => {
    const name = `${piece.key} ${stepsNearest(lengthInStick(piece))}`
    const cuts = planned.get(name) ?? cutsFor(piece)
    planned.set(name, cuts)
    return cuts.ok ? good(chainOf(piece, cuts.value, byKey.get(piece.key)!, section, shop)) : cuts
  }
}

function chainOf(
  piece: NestPiece,
  cuts: readonly EndCut[],
  part: Part,
  { section, kerf }: NestSection,
  shop: Shop,
): Chain {
  const saw = sawFor(shop, section)
  const { stopSide } = pieceHolding(saw)
  const seams = seamsOf(part, piece)
  const id = piece.piece
  const made = { mark: piece.mark, copy: piece.copy, job: piece.job, makes: [id] }
  const blank = piece.blank ?? id
  const half = `${id}.m`
  const handling = cuts.map(({ turns }) => turns.join(' ')).join(', ')
  return cuts.map((cut) => {
    const first = cut.kind === 'first'
    const keep: Product = first
      ? { ...made, id: half, from: blank, kind: 'half', key: halfKey(section, cut.kept, stopSide, shop) }
      : { ...made, id, from: cut.kind === 'second' ? half : blank, kind: 'piece', key: piece.key }
    const length = extentOf(cut.kept)
    return {
      saw,
      section,
      kerf,
      load: keep.from,
      keep: { ...keep, length },
      cut,
      handling,
      stop: shownStop(cut.planned, shop),
      seam: seamAt(cut, cuts[0]!, seams),
    }
  })
}
