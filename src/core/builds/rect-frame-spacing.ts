import { bad, badAll, good, type Problem, type Result } from '../result.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { RowValue } from './build.ts'

// Where bars stand along a row, measured from the outside of the frame.

/** A clear length between two faces. */
export interface Field {
  readonly from: Mm
  readonly to: Mm
}

/** What is said of a row in messages. */
export interface RowWords {
  /** `cross bars` */
  readonly bars: string
  /** Parameter with the count, parameter with the rows. */
  readonly count: string
  readonly centers: string
  readonly say: (mm: Mm) => string
}

const clear = ({ from, to }: Field): Mm => to - from

/** What bars of this width leave clear of a field: one field more than bars. */
export function fieldsBetween(field: Field, centers: readonly Mm[], width: Mm): Field[] {
  const edges = [field.from, ...centers.flatMap((at) => [at - width / 2, at + width / 2]), field.to]
  return Array.from({ length: centers.length + 1 }, (_, at) => ({
    from: edges[2 * at]!,
    to: edges[2 * at + 1]!,
  }))
}

/** Clear length between `count` bars spaced evenly over a field, and to its ends; below 0 where they have no room. */
export const evenGap = (field: Field, count: number, width: Mm): Mm =>
  (clear(field) - count * width) / (count + 1)

/** Middles of `count` bars in every field, all clear lengths in a field alike. */
export function evenly(
  fields: readonly Field[],
  count: number,
  width: Mm,
  words: RowWords,
): Result<readonly (readonly Mm[])[]> {
  const { say } = words
  const tight = fields.findIndex((field) => evenGap(field, count, width) < sameLength)
  const field = fields[tight]
  if (field) {
    const most = Math.max(0, Math.ceil(clear(field) / width - sameLength) - 1)
    const where = fields.length === 1 ? 'the frame' : `field ${tight + 1}`
    return bad(
      'bars-too-many',
      `${count} ${words.bars} ${say(width)} wide fill ${say(count * width)} or more, but ${where} is ${say(clear(field))} clear; ` +
        (most === 0 ? 'none fits, so they must be narrower.' : `at most ${most} can stand in it.`),
      `build.params.${words.count}`,
    )
  }
  return good(
    fields.map((each) =>
      Array.from(
        { length: count },
        (_, at) => each.from + evenGap(each, count, width) * (at + 1) + width * (at + 0.5),
      ),
    ),
  )
}

/** Typed middles, sorted into their fields; every one must lie clear of faces and of the others. */
export function typed(
  fields: readonly Field[],
  rows: readonly RowValue[],
  width: Mm,
  words: RowWords,
): Result<readonly (readonly Mm[])[]> {
  const { say } = words
  const name = (at: number) => `build.params.${words.centers}[${at}].at`
  if (rows.length === 0)
    return bad(
      'bars-none',
      `No middle is given for the ${words.bars}; give at least one row, or choose none.`,
      `build.params.${words.centers}`,
    )
  const placed = rows
    .map((row, row0) => ({ at: row.at as Mm, row: row0 }))
    .sort((one, two) => one.at - two.at)
  const inField = ({ from, to }: Field, at: Mm) =>
    at - width / 2 >= from - sameLength && at + width / 2 <= to + sameLength
  const wide = fields.filter((field) => clear(field) >= width - sameLength)
  const room = wide
    .map(({ from, to }) => `from ${say(from + width / 2)} to ${say(to - width / 2)}`)
    .join(' or ')
  const problems = placed.flatMap(({ at, row }, order): Problem[] => {
    if (!fields.some((field) => inField(field, at)))
      return [
        {
          code: 'bar-outside',
          text:
            `Row ${row + 1}: a middle at ${say(at)} does not lie clear inside the frame; ` +
            (room
              ? `for ${words.bars} ${say(width)} wide it can be ${room}.`
              : `no field is ${say(width)} wide.`),
          field: name(row),
        },
      ]
    const before = placed[order - 1]
    if (!before || at - before.at >= width - sameLength) return []
    return [
      {
        code: 'bars-overlap',
        text:
          `Rows ${before.row + 1} and ${row + 1}: middles at ${say(before.at)} and ${say(at)} are ${say(at - before.at)} apart; ` +
          `${words.bars} ${say(width)} wide must be at least that far apart.`,
        field: name(row),
      },
    ]
  })
  if (problems.length > 0) return badAll(problems)
  return good(fields.map((field) => placed.flatMap(({ at }) => (inField(field, at) ? [at] : []))))
}
