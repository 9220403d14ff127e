import { cornerAt, crossingOf, greatest, insideAngles, moved, sidesOf } from '../geometry/outline.ts'
import { area, common, counterclockwise, type Point, type Polygon } from '../geometry/polygon.ts'
import { bad, badAll, good, type Problem, type Result } from '../result.ts'
import { samePoint } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm, sinDeg } from '../units.ts'
import type { RowValue, Values } from './build.ts'

// The outer outline of an uneven frame, from what is known of it. Corner 1 is where side 1 begins; corner k lies
// between sides k − 1 and k. Angles are those inside the frame.

/** How the outline is given; also the values of the parameter. */
export const ways = ['last side open', 'last corners open', 'corner points'] as const
export type Way = (typeof ways)[number]

export const fewestSides = 3
export const mostSides = 40
/** A cut is at most 85° from square, as in a cut list. */
export const leastCorner: Deg = 10
export const mostCorner: Deg = 360 - leastCorner
/** Nearer to 180° than this the miter is below 0.1°, which no saw's scale shows: it is one straight side. */
const leastBend: Deg = 0.2

export interface Outline {
  readonly points: Polygon
  /** Side k, from 0, was given by the person. */
  readonly given: (side: number) => boolean
  /** The field that a side's length comes from. */
  readonly field: (side: number) => string
}

type Say = (mm: Mm) => string

const rowsOf: Readonly<Record<Way, string>> = {
  'last side open': 'sides',
  'last corners open': 'allSides',
  'corner points': 'points',
}

const sayAngle = (angle: Deg): string => `${+angle.toFixed(2)}°`
const sayCorner = (at: number, n: number) =>
  `corner ${at + 1}, between sides ${at === 0 ? n : at} and ${at + 1},`

/** The outline, simple and with every corner within what a saw can cut, or what is wrong and what is possible. */
export function outlineOf(values: Values, say: Say): Result<Outline> {
  const way = values.way as Way
  const name = rowsOf[way]
  const rows = values[name] as readonly RowValue[]
  const table = `build.params.${name}`
  const n = way === 'last side open' ? rows.length + 1 : rows.length
  if (n < fewestSides || n > mostSides) {
    const less = way === 'last side open' ? 1 : 0
    const what = way === 'corner points' ? 'corner points' : 'sides'
    return bad(
      'rows',
      `${rows.length} ${what} were given; ${fewestSides - less} to ${mostSides - less} are possible here.`,
      table,
    )
  }
  const points =
    way === 'corner points'
      ? typedPoints(rows, table)
      : way === 'last side open'
        ? withLastSide(rows, table, say)
        : withLastCorners(rows, table, say)
  if (!points.ok) return points
  const fault = faultIn(points.value, way, table, say)
  return fault.length > 0
    ? badAll(fault)
    : good({
        points: points.value,
        given: (side) => side < rows.length,
        field: (side) => {
          if (side >= rows.length) return table
          return way === 'corner points' ? `${table}[${side}].x` : `${table}[${side}].side`
        },
      })
}

function typedPoints(rows: readonly RowValue[], table: string): Result<Polygon> {
  const points = rows.map((row): Point => [row.x as Mm, row.y as Mm])
  const n = points.length
  const problems = sidesOf(points).flatMap((side, at): Problem[] =>
    side > samePoint
      ? []
      : [
          {
            code: 'zero-side',
            text: `Points ${at + 1} and ${((at + 1) % n) + 1} are one point, so side ${at + 1} has no length; take one of them out or move it.`,
            field: `${table}[${at}].x`,
          },
        ],
  )
  return problems.length > 0 ? badAll(problems) : good(points)
}

/** Every side must have a length, the first `corners` rows a corner, the others none. */
function rowFaults(rows: readonly RowValue[], corners: number, table: string, say: Say): Problem[] {
  return rows.flatMap((row, at): Problem[] => {
    const side = row.side as Mm
    const own = row.corner !== undefined
    const wanted = at < corners
    return [
      ...(side > 0
        ? []
        : [
            {
              code: 'side',
              text: `Side ${at + 1} was given as ${say(side)}; it must be more than 0.`,
              field: `${table}[${at}].side`,
            },
          ]),
      ...(own === wanted
        ? []
        : [
            {
              code: wanted ? 'corner-missing' : 'corner-too-many',
              text: wanted
                ? `The corner after side ${at + 1} is missing; with ${rows.length} rows it is given after ${saySides(corners)}.`
                : `The corner after side ${at + 1} was given as ${sayAngle(row.corner as Deg)}, but it follows from the others: ` +
                  `leave it empty; with ${rows.length} rows ${corners === 0 ? 'no corner is given' : `corners are given after ${saySides(corners)}`}.`,
              field: `${table}[${at}].corner`,
            },
          ]),
    ]
  })
}

const saySides = (count: number) => (count === 1 ? 'side 1' : `sides 1 to ${count}`)

/** Corners reached by going along these sides, from the origin, side 1 toward +x, turning left at every corner. */
function walk(rows: readonly RowValue[], sides: number): Point[] {
  let heading: Deg = 0
  const points: Point[] = [[0, 0]]
  for (const row of rows.slice(0, sides)) {
    const [x, y] = points.at(-1)!
    const side = row.side as Mm
    points.push([x + side * cosDeg(heading), y + side * sinDeg(heading)])
    if (row.corner !== undefined) heading += 180 - (row.corner as Deg)
  }
  return points
}

/** n − 1 sides and the n − 2 corners between them: the last side closes. */
function withLastSide(rows: readonly RowValue[], table: string, say: Say): Result<Polygon> {
  const problems = rowFaults(rows, rows.length - 1, table, say)
  if (problems.length > 0) return badAll(problems)
  const points = walk(rows, rows.length)
  const [x, y] = points.at(-1)!
  if (Math.hypot(x, y) > samePoint) return good(points)
  return bad(
    'closed-already',
    `The ${rows.length} sides given end where they began, so nothing is left for side ${rows.length + 1}; ` +
      'take out the last row, or change a side or a corner.',
    table,
  )
}

/** n sides and the first n − 3 corners: the last two sides meet on the outer side of what the others leave open. */
function withLastCorners(rows: readonly RowValue[], table: string, say: Say): Result<Polygon> {
  const n = rows.length
  const problems = rowFaults(rows, n - 3, table, say)
  if (problems.length > 0) return badAll(problems)
  const points = walk(rows, n - 2)
  const from = points.at(-1)!
  const open = Math.hypot(from[0], from[1])
  if (open < samePoint)
    return bad(
      'closed-already',
      `Sides 1 to ${n - 2} end where they began, so sides ${n - 1} and ${n} have nothing to close; change a side or a corner.`,
      table,
    )
  const [a, b] = [rows[n - 2]!.side as Mm, rows[n - 1]!.side as Mm]
  // The angle at `from` between the open stretch and side n − 1, by the law of cosines.
  const cosine = (a * a + open * open - b * b) / (2 * a * open)
  if (Math.abs(cosine) >= 1)
    return bad(
      'does-not-close',
      `Sides ${n - 1} and ${n}, ${say(a)} and ${say(b)}, cannot close a gap of ${say(open)}; with side ${n - 1} as given, ` +
        `side ${n} must be more than ${say(Math.abs(open - a))} and less than ${say(open + a)}.`,
      `${table}[${n - 1}].side`,
    )
  const sine = Math.sqrt(1 - cosine * cosine)
  const [x, y] = [-from[0] / open, -from[1] / open]
  // Turned to the right of the open stretch: the inside lies on its left.
  return good([...points, [from[0] + a * (x * cosine + y * sine), from[1] + a * (y * cosine - x * sine)]])
}

function faultIn(points: Polygon, way: Way, table: string, say: Say): Problem[] {
  const n = points.length
  const crossing = crossingOf(points)
  if (crossing) {
    const [one, two] = crossing.sides
    const away = (side: number) => {
      const start = points[side]!
      return say(Math.hypot(crossing.at[0] - start[0], crossing.at[1] - start[1]))
    }
    return [
      {
        code: 'self-crossing',
        text:
          `Sides ${one + 1} and ${two + 1} cross, ${away(one)} from the start of side ${one + 1} and ${away(two)} from ` +
          `the start of side ${two + 1}; an outline must go round without meeting itself.`,
        field: table,
      },
    ]
  }
  if (way !== 'corner points' && area(points) < 0)
    return [
      {
        code: 'corners-outside',
        text:
          'With these corners the outline closes the other way round: they are the angles outside it. ' +
          'Give the angles inside: 360° less each of them.',
        field: table,
      },
    ]
  const corners = insideAngles(points)
  const bends = corners.flatMap((corner, at): Problem[] => {
    const where = sayCorner(at, n)
    if (corner < leastCorner || corner > mostCorner)
      return [
        {
          code: 'corner',
          text: `The inside angle of ${where} comes to ${sayAngle(corner)}; it must be from ${leastCorner}° to ${mostCorner}°: a cut is at most 85° from square.`,
          field: table,
        },
      ]
    if (Math.abs(corner - 180) < leastBend)
      return [
        {
          code: 'straight-corner',
          text: `The inside angle of ${where} comes to ${sayAngle(corner)}, which is straight; leave the corner out, so that both sides are one.`,
          field: table,
        },
      ]
    return []
  })
  if (bends.length > 0 || way !== 'last corners open') return bends
  const solved = [n - 2, n - 1, 0]
  const inward = solved.find((at) => corners[at]! > 180)
  if (inward === undefined) return []
  return [
    {
      code: 'not-convex',
      text:
        `The inside angle of ${sayCorner(inward, n)} would come to ${sayAngle(corners[inward]!)}; where the last three ` +
        'corners are left open, each must come out below 180°. Change a side or a given corner, or give the corner points.',
      field: table,
    },
  ]
}

/** Two sides, no neighbors, that run into each other in tube this wide, counted from 0; absent where none do. */
export function runningInto(points: Polygon, width: Mm): readonly [number, number] | undefined {
  const inner = moved(points, -width)
  const n = points.length
  const beds = points.map((corner, at) =>
    counterclockwise([corner, cornerAt(points, at + 1), cornerAt(inner, at + 1), inner[at]!]),
  )
  for (let one = 0; one < n; one++)
    for (let two = one + 2; two < n; two++)
      if (!(one === 0 && two === n - 1) && common(beds[one]!, beds[two]!).length > 0) return [one, two]
  return undefined
}

/** The width that tube must stay below so that no side runs into another, when `width` is too much. */
export const roomFor = (points: Polygon, width: Mm): Mm =>
  greatest(width, (tried) => runningInto(points, tried) === undefined)
