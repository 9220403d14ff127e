import {
  type Nest,
  type NestPart,
  type NestPiece,
  type NestProblem,
  type NestSection,
  type NestStick,
  type Pair,
  sharing,
} from '../nest.ts'
import { sectionKey } from '../section/section.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { fromSteps, stepsNearest } from '../units.ts'
import { sameSlopes, square, turned } from './room.ts'
import { mm, plain } from './words.ts'

/** Every demanded piece once and only once, of the demanded geometry, under the demanded name. */
export function demandFaults({ demand, sticks }: NestSection): string[] {
  const faults: string[] = []
  const given = new Map<NestPart, number>()
  const sticksOf = new Map<string, Set<string>>()
  const cut = (part: NestPart, stick: NestStick) => {
    given.set(part, (given.get(part) ?? 0) + 1)
    if (part.same !== undefined && !isOnePiece(stick))
      sticksOf.set(part.same, (sticksOf.get(part.same) ?? new Set()).add(stick.id))
  }
  for (const part of demand) {
    if (!Number.isSafeInteger(part.count) || part.count < 1)
      faults.push(`part ${part.mark}: a count of ${part.count}`)
    if (!Number.isSafeInteger(part.perCopy) || part.perCopy < 1)
      faults.push(`part ${part.mark}: ${part.perCopy} pieces per copy`)
    if (part.makes && part.makes.length !== part.count)
      faults.push(`part ${part.mark}: ${part.makes.length} paired blanks listed for a count of ${part.count}`)
    given.set(part, 0)
  }
  for (const stick of sticks)
    for (const piece of stick.pieces) {
      if (piece.makes) {
        const part = demand.find(
          (each) => each.job === piece.job && each.makes?.some((pair) => isPair(pair, piece)),
        )
        if (!part) faults.push(`stick ${stick.id}: the pair of ${piece.piece} is not demanded like that`)
        else {
          cut(part, stick)
          faults.push(...pairFaults(piece), ...shapeFaults(piece, part))
        }
        continue
      }
      const number = numberOf(piece)
      const part = demand.find((each) => isOf(piece, number, each))
      if (!part) {
        faults.push(
          `stick ${stick.id}: piece ${piece.piece} of job ${piece.job} is not demanded, or not with this key`,
        )
        continue
      }
      cut(part, stick)
      const copy = 1 + Math.floor((number - 1) / part.perCopy)
      if (piece.copy !== copy)
        faults.push(`piece ${piece.piece} is said to be of copy ${piece.copy}; it is of copy ${copy}`)
      faults.push(...shapeFaults(piece, part))
    }
  for (const [same, ids] of sticksOf) {
    const marks = [...new Set(demand.filter((part) => part.same === same).map(({ mark }) => mark))]
    if (ids.size > 1)
      faults.push(
        `pieces of ${marks.join(', ')} are wanted from one stick (${same}); they come from ${[...ids].join(', ')}`,
      )
  }
  for (const [part, count] of given)
    if (count !== part.count)
      faults.push(`part ${part.mark} of job ${part.job}: ${count} pieces in the nest, ${part.count} demanded`)
  return faults
}

/** A blank that lies there came off its stick before this nest: from which one nobody chooses any more. */
const isOnePiece = ({ from, length, pieces: [piece, more] }: NestStick): boolean =>
  from === 'rack' &&
  piece !== undefined &&
  more === undefined &&
  piece.ends[0].x - piece.ends[1].x >= length - fromSteps(1) - sameLength

const isPair = (pair: Pair, { makes }: NestPiece): boolean =>
  pair.every((each, at) =>
    (['piece', 'mark', 'key', 'copy', 'perCopy'] as const).every(
      (field) => each[field] === makes![at]![field],
    ),
  )

/** The entry bears the name of the first of its two, and each is of the copy that its number says. */
function pairFaults({ piece, mark, key, copy, job, blank, makes }: NestPiece): string[] {
  const [one, two] = makes!
  const faults: string[] = []
  if (one.piece !== piece || one.mark !== mark || one.key !== key || one.copy !== copy)
    faults.push(`paired blank ${blank ?? piece}: it is named ${piece}; its first piece is ${one.piece}`)
  if (blank === undefined) faults.push(`pair ${one.piece} and ${two.piece}: it names no blank`)
  if (one.piece === two.piece) faults.push(`a pair of ${one.piece} with itself`)
  for (const each of makes!) {
    const number = numberOf({ ...each, job })
    const of = 1 + Math.floor((number - 1) / each.perCopy)
    if (each.copy !== of)
      faults.push(`piece ${each.piece} is said to be of copy ${each.copy}; it is of copy ${of}`)
  }
  return faults
}

/** Number of a piece in its mark; NaN where the name is not mark and number. */
function numberOf({ piece, mark }: Pick<NestPiece, 'piece' | 'mark' | 'job'>): number {
  const digits = piece.startsWith(mark) ? piece.slice(mark.length) : ''
  return /^[1-9]\d*$/.test(digits) ? Number(digits) : Number.NaN
}

function isOf(piece: NestPiece, number: number, part: NestPart): boolean {
  const first = part.first ?? 1
  return (
    part.makes === undefined &&
    piece.job === part.job &&
    piece.key === part.key &&
    piece.mark === part.mark &&
    number >= first &&
    number < first + part.count
  )
}

function shapeFaults({ piece, turn, ends }: NestPiece, part: NestPart): string[] {
  if (!['none', 'over', 'end', 'flip'].includes(turn)) return [`piece ${piece}: ${turn} is no proper turning`]
  const faults: string[] = []
  if (turn !== 'none' && !part.turns.includes(turn))
    faults.push(`piece ${piece}: turned ${turn}, which its part does not allow`)
  const mid = ends[0].x - ends[1].x
  // The solver may count a piece up to the next whole step; never below.
  if (!(mid >= part.mid - sameLength && mid <= part.mid + fromSteps(1) + sameLength))
    faults.push(`piece ${piece}: ${mm(mid)} long at the middle, ${mm(part.mid)} demanded`)
  for (const [index, slope] of turned(part.ends, turn).entries()) {
    const end = ends[index]!
    if (!sameSlopes(end, slope))
      faults.push(
        `piece ${piece}: the ${index === 0 ? 'leading' : 'trailing'} end slopes ${plain(end.p)}, ${plain(end.q)}; ` +
          `the part turned ${turn} slopes ${plain(slope.p)}, ${plain(slope.q)}`,
      )
  }
  return faults
}

type Shares = ReturnType<typeof sharing>

/** The nest asks for exactly what the plan's problems want, for the jobs that they speak of. */
export function wantedFaults(nest: Nest, problems: readonly NestProblem[]): string[] {
  const jobs = new Set(problems.flatMap(({ parts }) => parts.map(({ job }) => job)))
  const faults: string[] = []
  const wanted = new Map<string, NestPart & { readonly section: string }>()
  const nameOf = (section: string, { job, key, mid, ends, turns, same }: NestPart, shares: Shares) =>
    JSON.stringify([
      section,
      job,
      key,
      stepsNearest(mid),
      ends.map(({ p, q }) => [p, q].map((slope) => Math.round(slope / sameSlope))),
      ends.some((end) => !sameSlopes(end, square)) ? [...turns].sort() : [],
      ...(same === undefined ? [] : [shares.get(same)]),
    ])
  const left = new Map<string, number>()
  for (const problem of problems) {
    const shares = sharing(problem.parts)
    for (const part of problem.parts) {
      const section = sectionKey(problem.section)
      const name = nameOf(section, part, shares)
      wanted.set(name, { ...part, section })
      left.set(name, (left.get(name) ?? 0) + part.count)
    }
  }
  for (const { section, demand } of nest.sections) {
    const shares = sharing(demand)
    for (const part of demand) {
      if (!jobs.has(part.job)) continue
      const name = nameOf(sectionKey(section), part, shares)
      if (!wanted.has(name))
        faults.push(
          `the nest gives ${part.count} × ${part.mark} of ${mm(part.mid)}, which the plan does not want`,
        )
      else left.set(name, (left.get(name) ?? 0) - part.count)
    }
  }
  for (const [name, count] of left) {
    const { mark, mid } = wanted.get(name)!
    if (count !== 0)
      faults.push(
        `the nest gives ${Math.abs(count)} ${count > 0 ? 'too few' : 'too many'} of ${mark}, ${mm(mid)}`,
      )
  }
  return [...faults, ...problems.flatMap((problem) => figureFaults(nest, problem))]
}

/** Figures of the nest that are smaller than what the shop has now: steel or grip would be missing. */
function figureFaults(nest: Nest, problem: NestProblem): string[] {
  const key = sectionKey(problem.section)
  const section = nest.sections.find((each) => sectionKey(each.section) === key)
  if (!section) return []
  const names = { kerf: 'kerf', trim: 'clean-up cut', grip: 'least to hold' } as const
  return (['kerf', 'trim', 'grip'] as const)
    .filter((figure) => section[figure] < problem[figure] - sameLength)
    .map(
      (figure) =>
        `section ${key}: the nest reckons with a ${names[figure]} of ${mm(section[figure])}, the shop with ${mm(problem[figure])}`,
    )
}
