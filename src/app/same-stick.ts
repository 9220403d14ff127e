import {
  type NestPart,
  type NestPiece,
  type NestProblem,
  type NestSection,
  type NestStick,
  piecesIn,
} from '../core/nest.ts'
import type { Part } from '../core/plan-shapes.ts'
import { sectionKey } from '../core/section/section.ts'
import { front, isSquare, square, tail } from '../core/stick-room.ts'
import { sameLength } from '../core/tolerance.ts'
import { fromSteps, type Mm, stepsDown, stepsUp } from '../core/units.ts'
import { nothingToFind } from './begun.ts'
import { begunSticks, type Counts, countIn, firstStick, type There } from './first-stick.ts'

// Pieces that are wanted from one stick, of which some are there already: the others come from what is left of that
// stick where it holds them, whatever else they would save; where it does not, it is said.

/** Pieces that come from another stick than those beside which they were wanted. */
export interface Apart {
  /** Which and how many, by mark. */
  readonly open: readonly { readonly mark: string; readonly count: number }[]
  /** Sticks that the pieces came from that are there, by their names at the saw. */
  readonly from: readonly string[]
  /** Why not from there, where that is known: slanted pieces are for the search to place. */
  readonly why?: 'too short' | 'nothing left'
}

export interface SameStick {
  /** For the solver: what is tied to no stick, and the sticks without what is. */
  readonly left: readonly NestProblem[]
  /** The solved sections with the tied pieces on their sticks. */
  readonly withTied: (solved: readonly NestSection[]) => readonly NestSection[]
  /** What these sections, all put back, do not take from its own stick. */
  readonly apart: (sections: readonly NestSection[]) => readonly Apart[]
}

/** A group that was tied to none of the sticks that it could come from. */
interface Untied extends Apart {
  readonly pieces: readonly string[]
  readonly sticks: readonly string[]
}

/** Ties the open pieces of each group to the stick that the rest of the group came from. */
export function sameStick(open: readonly NestProblem[], parts: readonly Part[], there: There): SameStick {
  const untied: Untied[] = []
  const tied = open.map((problem) => tieAll(problem, parts, there, untied))
  return {
    left: tied.map(({ left }) => left).filter(({ parts: any }) => any.length > 0),
    withTied: (solved) =>
      tied.map(({ left, rows }, at) => {
        const key = sectionKey(left.section)
        const section = solved.find((one) => sectionKey(one.section) === key) ?? nothingToFind(left)
        return rows.size === 0 ? section : putOn(section, open[at]!, rows)
      }),
    apart: (sections) => {
      const sticks = sections.flatMap((section) => section.sticks)
      const isThere = ({ pieces, sticks: own }: Untied) =>
        sticks.some(
          ({ rack, pieces: on }) =>
            rack !== undefined &&
            own.includes(firstStick(rack, there)) &&
            on.flatMap(piecesIn).some(({ piece }) => pieces.includes(piece)),
        )
      return untied
        .filter((group) => !isThere(group))
        .map(({ open: pieces, from, why }) => ({ open: pieces, from, ...(why && { why }) }))
    },
  }
}

const namesOf = ({ mark, first = 1, count, makes }: NestPart): readonly string[] =>
  makes?.flatMap((pair) => pair.map(({ piece }) => piece)) ??
  Array.from({ length: count }, (_, at) => `${mark}${first + at}`)

/** Pieces by the rack piece, what is left of a stick, that they come off first. */
type Rows = Map<string, readonly NestPiece[]>

function tieAll(problem: NestProblem, parts: readonly Part[], there: There, untied: Untied[]) {
  const rows: Rows = new Map()
  const groups = new Map<string, NestPart[]>()
  for (const part of problem.parts)
    if (part.same !== undefined) groups.set(part.same, [...(groups.get(part.same) ?? []), part])
  const claimed = new Set<string>()
  let left = problem
  for (const [same, group] of groups) {
    const wish = same.slice(0, same.lastIndexOf('/'))
    const whole: Counts = new Map(
      parts.filter(({ oneStick }) => oneStick === wish).map(({ key, count }) => [key, count]),
    )
    const lacks = new Map<string, number>()
    for (const { key, count } of group) lacks.set(key, (lacks.get(key) ?? 0) + count)
    if ([...whole].every(([key, count]) => countIn(lacks, key) === count)) continue
    const begun = [...begunSticks(whole, there)].filter(([name]) => !claimed.has(`${wish} ${name}`))
    const makesWhole = ([, has]: (typeof begun)[number]) =>
      [...whole].every(([key, count]) => countIn(has, key) + countIn(lacks, key) === count)
    const exact = begun.find(makesWhole)
    const sticks = (exact ? [exact] : begun).map(([name]) => name)
    if (sticks.length === 0) continue
    if (exact) claimed.add(`${wish} ${exact[0]}`)
    const rests = left.stock.filter(
      ({ rack }) => rack !== undefined && sticks.includes(firstStick(rack, there)),
    )
    const put = rests.map(({ rack }) => putFirst(left, rack!, group)).find((row) => row !== undefined)
    if (put) {
      rows.set(put.rack, [...(rows.get(put.rack) ?? []), ...put.pieces])
      left = put.left
    } else
      untied.push({
        open: group.map(({ mark, count }) => ({ mark, count })),
        from: sticks.map((name) => name.slice(name.lastIndexOf('/') + 1)),
        pieces: group.flatMap(namesOf),
        sticks,
        ...(rests.length === 0 ? { why: 'nothing left' } : group.every(isPlain) ? { why: 'too short' } : {}),
      })
  }
  return { left, rows }
}

const isPlain = ({ ends, makes }: NestPart): boolean => !makes && ends.every(isSquare)

/** All pieces of a group off the leading end of a rack piece, with what that leaves for the others; undefined where it cannot be. */
function putFirst(problem: NestProblem, rack: string, group: readonly NestPart[]) {
  const at = problem.stock.findIndex((one) => one.rack === rack)
  const stock = problem.stock[at]!
  // Slanted ends may share a cut with what comes next: that is for the solver, and it is not asked for one stick.
  if (!group.every(isPlain)) return undefined
  if (stock.ends.some((end) => typeof end !== 'string')) return undefined
  let x: Mm = fromSteps(stepsDown(stock.length) - stepsUp(front(problem, stock.ends[0], square)))
  const kerf = fromSteps(stepsUp(problem.kerf))
  const pieces: NestPiece[] = []
  for (const part of group.toSorted((a, b) => b.mid - a.mid))
    for (let number = part.first ?? 1; number < (part.first ?? 1) + part.count; number += 1) {
      const end = x - fromSteps(stepsUp(part.mid))
      pieces.push(pieceOf(part, number, x, end))
      x = end - kerf
    }
  if (x + kerf < tail(problem, stock.ends[1], square) - sameLength) return undefined
  const length = fromSteps(Math.max(0, stepsDown(x)))
  const rest = { ...stock, length, ends: ['cut', stock.ends[1]] as const }
  const left: NestProblem = {
    ...problem,
    parts: problem.parts.filter((part) => !group.includes(part)),
    stock: length > 0 ? problem.stock.with(at, rest) : problem.stock.toSpliced(at, 1),
  }
  return { rack, pieces, left }
}

function pieceOf(
  { mark, key, job, perCopy, finished }: NestPart,
  number: number,
  lead: Mm,
  trail: Mm,
): NestPiece {
  const piece = `${mark}${number}`
  return {
    piece,
    mark,
    key,
    job,
    copy: 1 + Math.floor((number - 1) / perCopy),
    turn: 'none',
    ends: [
      { x: lead, ...square },
      { x: trail, ...square },
    ],
    ...(finished ? {} : { blank: `${piece}.b` }),
  }
}

/** The tied pieces before all others of their sticks, and the stock as it was. */
function putOn(section: NestSection, { parts, stock, kerf, way }: NestProblem, rows: Rows): NestSection {
  const others = section.sticks.filter(({ rack }) => !rows.has(rack ?? ''))
  const tied = [...rows].map(([rack, pieces]): NestStick => {
    const { length, ends, price = 0 } = stock.find((one) => one.rack === rack)!
    const more = section.sticks.find((stick) => stick.rack === rack)
    const behind = pieces.at(-1)!.ends[1].x - fromSteps(stepsUp(kerf))
    return {
      // Sticks are named through the whole nest when it is sealed.
      id: rack,
      from: 'rack',
      rack,
      length,
      price,
      ends,
      way,
      pieces: [...pieces, ...(more?.pieces ?? [])],
      drop: more?.drop ?? Math.max(0, behind),
    }
  })
  return { ...section, demand: parts, stock, sticks: [...tied, ...others] }
}
