import type { Nest, NestPiece, NestSection } from '../nest.ts'
import { sawFor } from '../parts/demand.ts'
import type { Part, Product, Run, Shown } from '../plan-shapes.ts'
import { showLength } from '../reading/show.ts'
import type { Problem, Result } from '../result.ts'
import { badAll, good } from '../result.ts'
import { sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength, stepSlack } from '../tolerance.ts'
import { fromSteps, type Mm, stepsNearest } from '../units.ts'
import { type Blank, type Loaded, squareCuts } from './blanks.ts'
import { boxOf } from './box.ts'
import { cutEnds, type EndCut } from './ends.ts'
import { quickest } from './figures.ts'
import { extentOf } from './lying.ts'
import { type Chain, endCuts } from './miters.ts'
import { runOf } from './programs.ts'
import { otherWay, unknownPart } from './refusals.ts'
import type { Visit } from './visit.ts'

/** One section's work before its order is chosen. */
interface Work {
  readonly square: readonly Visit[]
  readonly chains: readonly Chain[]
}

/**
 * What is done at the saws for a nest cut square first: pass 1 cuts square blanks (or pieces that need no miter) from
 * the sticks, pass 2 miters their ends. Stops follow from the printed lengths, rounded once by the shop's reading.
 *
 * Refused, each with a way out: parts that are not in the nest's job, compound ends, a miter past the saw's limits, a
 * stop past its longest, a part too short to hold.
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
  // A finished piece is as long as it is printed, which in decimal inches is no whole step of the nest.
  const finished = piece.blank ? undefined : parts.find(({ key }) => key === piece.key)
  const exact = finished?.printed.length.mm ?? lengthInStick(piece)
  const made = { from: stick, mark: piece.mark, copy: piece.copy, job: piece.job, makes: [piece.piece] }
  const keep: Product = piece.blank
    ? { ...made, id: piece.blank, kind: 'blank', key: blankKey(sectionKey(section), exact), length: exact }
    : { ...made, id: piece.piece, kind: 'piece', key: piece.key, length: exact }
  return { kind: piece.blank ? 'blank' : 'square', exact, stop: shownStop(exact, shop), keep }
}

/** The one number to set: how the exact stop lies beside it is no business of the person at the saw. */
function shownStop(exact: Mm, { reading }: Shop): Shown {
  const { mm, text, unit } = showLength(exact, reading)
  return { mm, text, unit }
}

const blankKey = (section: string, length: Mm): string => `${section} | blank ${stepsNearest(length)}`

/** A half: one end square, the other mitered; tip to tip in whole steps, miter, and the nominal side that it crosses. */
function halfKey(section: string, { swing, kept }: EndCut, across: 'big' | 'small'): string {
  const angle = String(+Math.abs(swing).toFixed(6))
  return `${section} | half ${stepsNearest(extentOf(kept))} ${angle} ${across}`
}

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
    return cuts.ok ? good(chainOf(piece, cuts.value, section, shop)) : cuts
  }
}

function chainOf(
  piece: NestPiece,
  cuts: readonly EndCut[],
  { section, kerf }: NestSection,
  shop: Shop,
): Chain {
  const saw = sawFor(shop, section)
  const box = boxOf(section, shop)
  const id = piece.piece
  const made = { mark: piece.mark, copy: piece.copy, job: piece.job, makes: [id] }
  const blank = piece.blank ?? id
  const half = `${id}.m`
  return cuts.map((cut) => {
    const first = cut.kind === 'first'
    const across = Math.abs(cut.kept.depth - box.big) <= sameLength ? 'big' : 'small'
    const keep: Product = first
      ? { ...made, id: half, from: blank, kind: 'half', key: halfKey(sectionKey(section), cut, across) }
      : { ...made, id, from: cut.kind === 'second' ? half : blank, kind: 'piece', key: piece.key }
    const length = extentOf(cut.kept)
    return {
      saw,
      section,
      kerf,
      load: keep.from,
      keep: { ...keep, length },
      cut,
      stop: shownStop(cut.exact, shop),
    }
  })
}
