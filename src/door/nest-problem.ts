import * as v from 'valibot'
import type { NestPart, NestProblem, StockLength, Turning } from '../core/nest.ts'
import { bad, badAll, good, type Result } from '../core/result.ts'
import { tanDeg } from '../core/units.ts'
import { parseJson } from './json.ts'
import { readShape } from './problem.ts'
import { agrees, distance, flag, list, number, oneOf, openFields, pair, size, text, whole } from './shape.ts'
import { given } from './words.ts'

// A nest problem by itself, as other programs write it: lengths, counts, angles in one swing plane.

/** One problem of a file, ready to be solved. */
export interface NestRequest {
  readonly name?: string
  readonly problem: NestProblem
  /** Units of the problem's cost in one unit of the file's: 100 where money is counted in cents, else 1. */
  readonly perUnit: 1 | 100
  /** Fields of the file that mean nothing here; they are said, in case one is misspelled. */
  readonly unread: readonly string[]
}

/** More pieces of one part, or sticks of one kind, than any shop has: a slip of the keyboard. */
const mostOfOne = 1_000_000

const angle = v.custom<number>(
  (degrees) => typeof degrees === 'number' && Math.abs(degrees) < 90,
  'an angle from square of less than 90 degrees either way',
)

const stockShape = v.pipe(
  openFields('a stock length', {
    length: size,
    price: v.optional(number('a price of 0 or more, with at most two decimals', { least: 0 })),
    count: v.optional(whole(0, mostOfOne)),
    rack: v.optional(flag),
    ends: v.optional(pair('"mill" or "cut" for each end', oneOf('mill', 'cut'))),
  }),
  agrees(
    'price',
    ({ price }) => price === undefined || isWholeCents(price as number),
    'a price of whole cents, with at most two decimals',
  ),
)

const partShape = openFields('a part', {
  length: size,
  count: whole(1, mostOfOne),
  ends: v.optional(pair('an angle for each end', angle)),
  turns: v.optional(oneOf('all', 'none', 'over', 'end', 'flip')),
  same: v.optional(text(200)),
})

const problemShape = openFields('a nest problem', {
  name: v.optional(text(200, 0)),
  kerf: v.optional(distance),
  trim: v.optional(distance),
  grip: v.optional(distance),
  width: v.optional(size),
  stock: list('stock lengths', stockShape),
  parts: list('parts', partShape),
})

type Given = v.InferOutput<typeof problemShape>

/** Money typed with at most two decimals; 0.1 and its like are no exact doubles, hence not `=== Math.round`. */
const isWholeCents = (price: number): boolean => Number(price.toFixed(2)) === price

const turnings = (turns: Given['parts'][number]['turns'] = 'all'): readonly Turning[] => {
  if (turns === 'all') return ['none', 'over', 'end', 'flip']
  return turns === 'none' ? ['none'] : ['none', turns]
}

/** Where one problem stands in the file: empty for a file of one. */
const inFile = (at: number | undefined, field: string): string =>
  at === undefined ? field : `[${at}].${field}`

/**
 * Reads a file of one nest problem or of a list of them. Anything that cannot be said with certainty is refused: wrong
 * types, no parts, no stock, slanted ends without a width, prices on some of the stock to be bought.
 */
export function readNestProblems(file: string): Result<readonly NestRequest[]> {
  const parsed = parseJson(file, 'nest problem')
  if (!parsed.ok) return parsed
  const { value } = parsed
  const many = Array.isArray(value)
  if (many && value.length === 0)
    return bad('empty', 'The list of nest problems is empty; it must hold one at least.')
  if (!many && (typeof value !== 'object' || value === null))
    return bad(
      'not-a-problem',
      `This is no nest problem: it is ${given(value)}, not an object or a list of them.`,
    )
  const requests: NestRequest[] = []
  for (const [at, each] of (many ? value : [value]).entries()) {
    const read = readShape(problemShape, each, 'the nest problem')
    const place = many ? at : undefined
    if (!read.ok)
      return badAll(
        read.problems.map((problem) =>
          many ? { ...problem, text: `Problem ${at}: ${problem.text}` } : problem,
        ),
      )
    const request = requestOf(read.value, place)
    if (!request.ok) return request
    requests.push(request.value)
  }
  return good(requests)
}

function requestOf(problem: Given, at: number | undefined): Result<NestRequest> {
  const { name, kerf = 0, trim = 0, grip = 0, width, stock, parts } = problem
  const refuse = (field: string, words: string) =>
    bad('nest-problem', `${inFile(at, field)} ${words}`, inFile(at, field))
  if (parts.length === 0) return refuse('parts', 'is an empty list; it must hold one part at least.')
  if (stock.length === 0) return refuse('stock', 'is an empty list; it must hold one stock length at least.')
  const slanted = parts.findIndex(({ ends }) => ends?.some((end) => end !== 0))
  if (slanted >= 0 && width === undefined)
    return refuse(
      'width',
      `is missing; parts[${slanted}] has an end that is not square, so it must be given.`,
    )
  const bought = stock.filter(({ rack }) => !rack)
  const priced = bought.filter(({ price }) => price !== undefined).length
  if (priced > 0 && priced < bought.length)
    return refuse(
      'stock',
      `has a price on ${priced} of ${bought.length} lengths to be bought; give all one, or none.`,
    )
  // Where bought steel has no price, what a rack piece is worth counts in mm like the rest.
  const perUnit = priced > 0 || bought.length === 0 ? 100 : 1
  return good({
    ...(name !== undefined && { name }),
    perUnit,
    unread: unreadOf(problem, at),
    problem: {
      // Only the width matters to a nest: it is what lies in the swing plane.
      section: { kind: 'square-bar', width: width ?? 1, height: width ?? 1, wall: 0, cornerRadius: 0 },
      way: 'from the stick',
      kerf,
      trim,
      grip,
      keep: 0,
      parts: parts.map((part, index) => partOf(part, index, width ?? 0)),
      stock: stock.map(({ length, price, count, rack, ends }, index): StockLength => {
        const usual = rack || trim === 0 ? 'cut' : 'mill'
        return {
          length,
          ends: ends ?? [usual, usual],
          ...(price !== undefined && { price: perUnit === 100 ? Math.round(price * 100) : price }),
          ...(rack ? { count: count ?? 1, rack: `R${index}` } : count !== undefined && { count }),
        }
      }),
    },
  })
}

/** `length` is the long point; both angles positive are a trapezoid, which as slopes are (tan a, −tan b). */
function partOf(
  { length, count, ends = [0, 0], turns, same }: Given['parts'][number],
  index: number,
  width: number,
): NestPart {
  const [lead, trail] = [tanDeg(ends[0]), tanDeg(ends[1])]
  return {
    job: 'file',
    mark: String(index),
    key: String(index),
    mid: length - (width / 2) * (Math.abs(lead) + Math.abs(trail)),
    ends: [
      { p: lead, q: 0 },
      { p: -trail || 0, q: 0 },
    ],
    turns: turnings(turns),
    count,
    perCopy: count,
    ...(same !== undefined && { same }),
    // What is asked for is what leaves the stick.
    finished: true,
  }
}

function unreadOf({ parts, stock, ...rest }: Given, at: number | undefined): string[] {
  const beside = (value: object, known: object, path: string) =>
    Object.keys(value)
      .filter((key) => !Object.hasOwn(known, key))
      .map((key) => inFile(at, `${path}${key}`))
  const { parts: _parts, stock: _stock, ...head } = problemShape.entries
  return [
    ...beside(rest, head, ''),
    ...stock.flatMap((each, index) => beside(each, stockEntries, `stock[${index}].`)),
    ...parts.flatMap((each, index) => beside(each, partShape.entries, `parts[${index}].`)),
  ]
}

const stockEntries = stockShape.pipe[0].entries
