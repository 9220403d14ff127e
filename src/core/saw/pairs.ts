import type { Warning } from '../frame/frame.ts'
import type { NestPart, Pair, PairedPiece } from '../nest.ts'
import { blankLength, kerfOf, nestPart, sawFor } from '../parts/demand.ts'
import { byCopy, sameName } from '../parts/one-stick.ts'
import type { Part } from '../plan-shapes.ts'
import { roundLength } from '../reading/show.ts'
import { type Section, sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { type Box, boxOf } from './box.ts'
import { beyondPrinted, lyingPart } from './ends.ts'
import { isPlain, isSquare, type Lying, type Side, sideAfter, tipOf, turnedBy } from './lying.ts'
import { splitOf } from './split.ts'
import { lays, sideOfFace } from './ways.ts'

// Two single miters of one angle from one blank, split by one cut.

/** A piece that looks for another half. */
interface Half {
  readonly part: Part
  readonly number: number
  /** Where the seam of the blank may look while it is split, this half at the stop; and as the half behind the blade. */
  readonly ahead: readonly Side[]
  readonly behind: readonly Side[]
  /** What it shares a stick with, and so its blank. */
  readonly same?: string
}

const sides: readonly Side[] = ['up', 'down', 'fence', 'outward']

/** One plain miter, the other end square. */
const isSingle = ({ shape, slopes, saddles }: Part): boolean =>
  shape === 'one end mitered' && !saddles && slopes.some((slope) => !isSquare(slope)) && slopes.every(oneWay)

const oneWay = ({ p, q }: { readonly p: number; readonly q: number }): boolean =>
  Math.abs(p) <= sameSlope || isPlain({ p, q })

const isEven = ({ big, small }: Box): boolean => Math.abs(big - small) <= sameLength

/** Single miters that one cut makes two of: the same angle across the same side of the section as it is. */
function angleName({ slopes, section }: Part, shop: Shop): string {
  const { p, q } = slopes.find((slope) => !isSquare(slope))!
  const across = isEven(boxOf(section, shop)) || Math.abs(p) > sameSlope ? 'big' : 'small'
  return `${across} ${Math.hypot(p, q).toFixed(8)}`
}

/** Where the seam may look while the piece lies as one half of the split: over all turnings that bring it there. */
function seamSides(part: Part, number: number, half: Lying): readonly Side[] {
  const allowed = part.seam?.[(number - 1) % part.count] ?? []
  if (allowed.length === 0) return sides
  const [depth, height] = [Math.max(half.depth, half.height), Math.min(half.depth, half.height)]
  const lying: Lying = { ...half, lead: part.slopes[0], trail: part.slopes[1], depth, height }
  const found = new Set<Side>()
  for (const turns of lays) {
    const laid = turnedBy(lying, turns)
    const off = (end: 'lead' | 'trail') =>
      tipOf({ p: laid[end].p - half[end].p, q: laid[end].q - half[end].q }, half)
    if (
      Math.abs(laid.depth - half.depth) > sameLength ||
      off('lead') > sameLength ||
      off('trail') > sameLength
    )
      continue
    for (const face of allowed) found.add(sideAfter(sideOfFace(face), turns))
  }
  return sides.filter((side) => found.has(side))
}

/** Both halves as they lie while the blank is split: the long side at the fence of the one ahead. */
function halvesOf(part: Part, section: Section, shop: Shop): readonly [Lying, Lying] {
  const box = boxOf(section, shop)
  const slope = part.slopes.find((each) => !isSquare(each))!
  const size = Math.hypot(slope.p, slope.q)
  const edgewise = Math.abs(slope.p) <= sameSlope && !isEven(box)
  const outside = edgewise ? { depth: box.small, height: box.big } : { depth: box.big, height: box.small }
  const flat = { p: 0, q: 0 }
  const cut = { p: size, q: 0 }
  return [
    { ...outside, lead: flat, trail: cut, mid: part.mid },
    { ...outside, lead: cut, trail: flat, mid: part.mid },
  ]
}

const copyOf = ({ count }: Part, number: number): number => 1 + Math.floor((number - 1) / count)

function halfOf(part: Part, number: number, section: Section, shop: Shop): Half {
  const [ahead, behind] = halvesOf(part, section, shop)
  const same = part.oneStick === undefined ? {} : { same: sameName(part.oneStick, copyOf(part, number)) }
  return {
    part,
    number,
    ahead: seamSides(part, number, ahead),
    behind: seamSides(part, number, behind),
    ...same,
  }
}

/** Length of a blank for two pieces, one cut between: with the lengths as printed or unrounded, mm. */
export function pairLength(
  one: Part,
  two: Part,
  section: Section,
  shop: Shop,
  lengths: 'printed' | 'exact',
): Mm {
  const box = boxOf(section, shop)
  const slope = one.slopes.find((each) => !isSquare(each))!
  const beyond = lengths === 'exact' ? beyondPrinted(one) + beyondPrinted(two) : 0
  const kerf = kerfOf(sawFor(shop, section)) * Math.hypot(1, slope.p, slope.q)
  return lyingPart(one, box).mid + lyingPart(two, box).mid + kerf + beyond
}

/** The same, as the stop can be set to it. */
const pairBlank = (one: Part, two: Part, section: Section, shop: Shop): Mm =>
  roundLength(pairLength(one, two, section, shop, 'printed'), shop.reading)

/**
 * Where the seam of a blank looks while it is split into these two, best first, in the words of this stop's side; none
 * where one of them would have it on another side than it is pinned to.
 */
export function seamAtSplit(
  one: { readonly part: Part; readonly number: number },
  two: { readonly part: Part; readonly number: number },
  section: Section,
  shop: Shop,
  stopSide: 'left' | 'right',
): readonly Side[] {
  const behind = halfOf(two.part, two.number, section, shop).behind
  const common = halfOf(one.part, one.number, section, shop).ahead.filter((side) => behind.includes(side))
  // With the stop at the right the blank lies swung round and rolled over: its long side is at the fence again.
  const seen = (side: Side): Side =>
    stopSide === 'left' ? side : side === 'up' ? 'down' : side === 'down' ? 'up' : side
  return bestSeen.filter((side) => common.map(seen).includes(side))
}

/** Best seen while it lies on the saw first. */
const bestSeen: readonly Side[] = ['up', 'outward', 'fence', 'down']

export interface Paired {
  readonly parts: readonly NestPart[]
  /** Pieces that could share a blank but for their weld seam. */
  readonly notes: readonly Warning[]
}

/**
 * What the parts of one section ask of the nest when single miters share blanks: like with like first, then across
 * marks; everything else as in square first. The two halves of a split blank are related by a half turn about the cut's
 * normal, so that pinned seams decide who goes with whom.
 */
export function pairedParts(
  parts: readonly Part[],
  section: Section,
  job: string,
  quantity: number,
  shop: Shop,
): Paired {
  const pairs: [Half, Half][] = []
  const alone = new Map<Part, number[]>()
  const notes: Warning[] = []
  const groups = new Map<string, Part[]>()
  for (const part of parts)
    if (isSingle(part)) {
      const name = angleName(part, shop)
      groups.set(name, [...(groups.get(name) ?? []), part])
    }
  for (const of of groups.values()) {
    const match = matcher(section, shop)
    const open = of.flatMap((part) => {
      const numbers = Array.from({ length: part.count * quantity }, (_, at) => at + 1)
      return paired(
        numbers.map((number) => halfOf(part, number, section, shop)),
        match,
        pairs,
      )
    })
    const rest = paired(open, match, pairs)
    for (const { part, number } of rest) alone.set(part, [...(alone.get(part) ?? []), number])
    const note = seamNote(rest)
    if (note) notes.push(note)
  }
  return {
    parts: [
      ...parts.flatMap((part) =>
        singles(part, isSingle(part) ? (alone.get(part) ?? []) : undefined, job, quantity, shop),
      ),
      ...asked(pairs, section, job, shop),
    ],
    notes,
  }
}

type Match = (one: Half, two: Half) => boolean

/** Whether two halves can come from one blank: seam, stop, vise and limits. Worked out once for each two marks. */
function matcher(section: Section, shop: Shop): Match {
  const known = new Map<string, boolean>()
  const cuttable = (one: Part, two: Part): boolean => {
    const name = `${one.key} ${two.key}`
    const answer = known.get(name) ?? splitOf(one, two, section, shop, pairBlank(one, two, section, shop)).ok
    known.set(name, answer)
    return answer
  }
  return (one, two) =>
    one.same === two.same &&
    one.ahead.some((side) => two.behind.includes(side)) &&
    cuttable(one.part, two.part)
}

/** Pairs of these, each with the first that it matches; what finds none is given back. */
function paired(halves: readonly Half[], match: Match, pairs: [Half, Half][]): Half[] {
  const open: Half[] = []
  const kinds = new Map<string, Half[]>()
  const nameOf = ({ part, ahead, behind, same }: Half) =>
    `${part.mark} ${ahead.join()} ${behind.join()} ${same ?? ''}`
  for (const half of halves) {
    const row = [...kinds.values()].find((each) => each.length > 0 && match(each[0]!, half))
    if (row) {
      pairs.push([row.shift()!, half])
      continue
    }
    const own = kinds.get(nameOf(half))
    if (own) own.push(half)
    else kinds.set(nameOf(half), [half])
  }
  for (const row of kinds.values()) open.push(...row)
  return open
}

function seamNote(rest: readonly Half[]): Warning | undefined {
  const pinned = rest.filter(({ ahead }) => ahead.length < sides.length)
  if (pinned.length < 2) return undefined
  const names = pinned.map(({ part, number }) => `${part.mark}${number}`)
  const said =
    names.length > 6 ? `${names.slice(0, 6).join(', ')} and ${names.length - 6} more` : names.join(', ')
  return {
    code: 'pair-seam',
    text:
      `${said} are cut from blanks of their own. One cut would make two of them, but its halves are related by a half turn: ` +
      'what is the top of one is the bottom of the other, what is inside is outside. Their weld seams must all lie on the same side. ' +
      'Ways out: leave the seam free, or pin one of the two the other way.',
    members: [...new Set(pinned.flatMap(({ part }) => part.members))],
  }
}

/** Pieces without another half, by rows of numbers; all of a part that takes no part in pairing. */
function singles(
  part: Part,
  numbers: readonly number[] | undefined,
  job: string,
  quantity: number,
  shop: Shop,
): NestPart[] {
  const whole = nestPart(part, job, quantity, shop)
  if (!numbers) return [...byCopy(whole, part)]
  const rows: number[][] = []
  for (const number of [...numbers].sort((one, two) => one - two)) {
    const row = rows.at(-1)
    if (row && row.at(-1) === number - 1) row.push(number)
    else rows.push([number])
  }
  return rows.flatMap((row) =>
    byCopy({ ...whole, count: row.length, ...(row[0] === 1 ? {} : { first: row[0]! }) }, part),
  )
}

/** One part of the nest for each two marks. */
function asked(
  pairs: readonly (readonly [Half, Half])[],
  section: Section,
  job: string,
  shop: Shop,
): NestPart[] {
  const groups = new Map<string, (readonly [Half, Half])[]>()
  for (const pair of pairs) {
    const name = `${pair[0].part.key} ${pair[1].part.key} ${pair[0].same ?? ''}`
    groups.set(name, [...(groups.get(name) ?? []), pair])
  }
  const flat = { p: 0, q: 0 }
  return [...groups.values()].map((of): NestPart => {
    const [one, two] = [of[0]![0].part, of[0]![1].part]
    return {
      job,
      mark: `${one.mark}+${two.mark}`,
      key: pairKey(one, two),
      mid: pairBlank(one, two, section, shop),
      ends: [flat, flat],
      turns: ['none', 'over', 'end', 'flip'],
      count: of.length,
      perCopy: of.length,
      ...(of[0]![0].same === undefined ? {} : { same: of[0]![0].same }),
      makes: of.map((pair): Pair => [pieceOf(pair[0], shop), pieceOf(pair[1], shop)]),
    }
  })
}

const pairKey = (one: Part, two: Part): string =>
  `${sectionKey(one.section)} | pair | ${one.key} | ${two.key}`

const pieceOf = ({ part, number }: Half, shop: Shop): PairedPiece => ({
  piece: `${part.mark}${number}`,
  mark: part.mark,
  key: part.key,
  copy: copyOf(part, number),
  perCopy: part.count,
  mid: blankLength(part, shop),
})
