import type { Frame } from '../frame/frame.ts'
import { cornerAt, directionsOf, moved, sidesOf } from '../geometry/outline.ts'
import type { Polygon } from '../geometry/polygon.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import { assemble, type MeasureDraft } from './assembly.ts'
import type { Build, BuildContext, ParamSpec, Values } from './build.ts'
import { plateOn, rimOf } from './rim.ts'
import { ringThrough } from './ring.ts'
import { laid, topParams, tubeParams } from './top.ts'
import {
  leastCorner,
  mostCorner,
  type Outline,
  outlineOf,
  roomFor,
  runningInto,
  type Way,
} from './uneven-frame-outline.ts'

const group = 'Frame'

const side: ParamSpec = { name: 'side', label: 'Side, outside', type: 'length', start: { in: '20', mm: 500 } }
const corner: ParamSpec = {
  name: 'corner',
  label: 'Corner to the next',
  type: 'angle',
  start: 90,
  optional: true,
  least: leastCorner,
  most: mostCorner,
  why: 'a cut is at most 85° from square',
}

const way = (wanted: Way) => (given: Readonly<Record<string, unknown>>) => given.way === wanted

/** A mitered frame of sides and corners that are not all alike, lying on the floor, with or without a top. */
export const unevenFrame: Build = {
  kind: 'uneven-frame',
  title: 'Uneven polygon frame',
  about: 'A mitered frame of unequal sides and corners, from sides and angles or from its corner points.',
  picture: 'M10 40L4 20 24 5l20 17-6 18zM14 35h20l4-11-14-12L10 22z',
  params: [
    {
      name: 'way',
      label: 'Given are',
      type: 'choice',
      start: 'last side open',
      choices: [
        { value: 'last side open', label: 'all sides but the last, and the corners between them' },
        { value: 'last corners open', label: 'all sides, and all corners but the last three' },
        { value: 'corner points', label: 'the outer corner points' },
      ],
      group,
    },
    {
      name: 'sides',
      label: 'Sides in order',
      type: 'rows',
      when: way('last side open'),
      start: {
        in: [
          { side: '30', corner: 105 },
          { side: '18', corner: 112 },
          { side: '23', corner: 107 },
          { side: '23' },
        ],
        mm: [
          { side: 800, corner: 105 },
          { side: 480, corner: 112 },
          { side: 600, corner: 104 },
          { side: 600 },
        ],
      },
      columns: [side, corner],
      hint: 'Angles inside the frame. The last row has no corner: the last side and its two corners follow.',
      group,
    },
    {
      name: 'allSides',
      label: 'Sides in order',
      type: 'rows',
      when: way('last corners open'),
      start: {
        in: [
          { side: '30', corner: 105 },
          { side: '18', corner: 112 },
          { side: '23' },
          { side: '23' },
          { side: '18' },
        ],
        mm: [
          { side: 800, corner: 105 },
          { side: 480, corner: 112 },
          { side: 600 },
          { side: 600 },
          { side: 450 },
        ],
      },
      columns: [side, corner],
      hint: 'Angles inside the frame. The last three rows have no corner: these corners follow, each below 180°.',
      group,
    },
    {
      name: 'points',
      label: 'Outer corner points in order',
      type: 'rows',
      when: way('corner points'),
      start: {
        in: [
          { x: 0, y: 0 },
          { x: '30', y: 0 },
          { x: '34', y: '18' },
          { x: '15', y: '31' },
          { x: '-3', y: '17' },
        ],
        mm: [
          { x: 0, y: 0 },
          { x: 800, y: 0 },
          { x: 900, y: 450 },
          { x: 400, y: 800 },
          { x: -80, y: 420 },
        ],
      },
      columns: [
        { name: 'x', label: 'To the right', type: 'length', start: 0 },
        { name: 'y', label: 'To the back', type: 'length', start: 0 },
      ],
      hint: 'Seen from above, either way round. Side 1 runs from point 1 to point 2.',
      group,
    },
    ...tubeParams('Tube of the frame', group),
    ...topParams,
  ],
  frame: unevenOf,
}

const tubes = ['square-tube', 'rect-tube']

function unevenOf(values: Values, context: BuildContext): Result<Frame> {
  const { say } = context
  const given = values.section as Section
  if (!tubes.includes(given.kind))
    return bad(
      'section-kind',
      `The frame was given ${given.kind.replace('-', ' ')}; mitered corners here take square or rectangular tube.`,
      'build.params.section',
    )
  const section = laid(given, values.stands as 'flat' | 'on edge')
  const outline = outlineOf(values, say)
  if (!outline.ok) return outline
  const { points, field } = outline.value
  const middle = section.height / 2
  const axes = moved(points, -section.width / 2).map(([x, y]): Vec3 => [x, y, middle])
  const ring = ringThrough(axes, section, context.gap, { id: 'frame', name: 'Frame', side: 'Side' })
  const on = ring.members.map(({ id }) => id)
  const plate = plateOn(values, context, section.height, rimOf(points, say), on)
  const sides = sidesOf(points)
  const made = assemble({
    members: ring.members,
    plates: plate.ok && plate.value ? [plate.value] : [],
    joints: ring.joints,
    hardware: [],
    assemblies: [ring.assembly],
    measures: measuresOf(outline.value, on),
    tooShort: ({ id }, shortPoint) => {
      const at = on.indexOf(id)
      return {
        code: 'side-too-short',
        text:
          `Side ${at + 1} ${outline.value.given(at) ? 'is given as' : 'comes to'} ${say(sides[at]!)}; between its corners, in tube ` +
          `${say(section.width)} wide, it must be more than ${say(sides[at]! - shortPoint)}, or no steel is left on its short side.`,
        field: field(at),
      }
    },
  })
  if (!made.ok) return made
  const meet = runningInto(points, section.width)
  if (meet)
    return bad(
      'sides-meet',
      `Sides ${meet[0] + 1} and ${meet[1] + 1} run into each other in tube ${say(section.width)} wide; it must be less than ` +
        `${say(roomFor(points, section.width))} wide there, or the sides farther apart.`,
      'build.params.section',
    )
  return plate.ok ? good(made.value) : plate
}

/** Up to this many sides every diagonal is worth its line; beyond, those from corner 1 fix the outline. */
const allDiagonals = 8

/**
 * Sides, then diagonals from corner to corner. A diagonal follows from the sides on both ways round, half each: what
 * rounding leaves open at the last joint is shared.
 */
function measuresOf({ points, given }: Outline, ids: readonly string[]): MeasureDraft[] {
  const n = points.length
  const ways = directionsOf(points)
  const measures = sidesOf(points).map(
    (mm, at): MeasureDraft => ({
      name: `side ${at + 1}`,
      mm,
      asked: given(at),
      terms: [{ member: ids[at]!, factor: 1 }],
    }),
  )
  for (let from = 0; from < (n <= allDiagonals ? n : 1); from++)
    for (let to = from + 2; to < n; to++) {
      if (from === 0 && to === n - 1) continue
      const [x, y, mm] = between(points, from, to)
      measures.push({
        name: `corner ${from + 1} to corner ${to + 1}`,
        mm,
        asked: false,
        terms: ways.map((side, at) => {
          const toward = (side[0] * x + side[1] * y) / 2
          return { member: ids[at]!, factor: at >= from && at < to ? toward : -toward }
        }),
      })
    }
  return measures
}

/** Unit vector and distance from one corner to another. */
function between(points: Polygon, from: number, to: number): readonly [number, number, Mm] {
  const [a, b] = [cornerAt(points, from), cornerAt(points, to)]
  const mm = Math.hypot(b[0] - a[0], b[1] - a[1])
  return [(b[0] - a[0]) / mm, (b[1] - a[1]) / mm, mm]
}
