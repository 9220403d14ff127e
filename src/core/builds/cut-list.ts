import type { Member } from '../frame/frame.ts'
import { cutEnd, edgesOf, member } from '../frame/member.ts'
import { toWorld } from '../geometry/pose.ts'
import { badAll, type Problem } from '../result.ts'
import type { Section } from '../section/section.ts'
import { samePoint } from '../tolerance.ts'
import { type Deg, type Mm, tanDeg } from '../units.ts'
import { assemble } from './assembly.ts'
import type { Build, RowValue } from './build.ts'

/** More pieces than this in one list are a slip of the keyboard. */
const mostPieces = 2000

const lengthKinds = ['long point', 'short point', 'center line'] as const
type LengthKind = (typeof lengthKinds)[number]

/** Rows from the person's own drawing: the pieces lie side by side, joined to nothing. */
export const cutList: Build = {
  kind: 'cut-list',
  title: 'Cut list',
  about: 'Typed or pasted rows of count, length, end angles and section, for one’s own drawing.',
  picture: 'M6 10h36v6H6zM6 21h28v6H6zM6 32h20v6H6z',
  params: [
    {
      name: 'section',
      label: 'Section',
      type: 'section',
      start: {
        in: { kind: 'square-tube', width: '2', wall: '1/8' },
        mm: { kind: 'square-tube', width: 40, wall: 3 },
      },
      hint: 'For every row that names none of its own.',
    },
    {
      name: 'lengthIs',
      label: 'The lengths are',
      type: 'choice',
      start: 'long point',
      choices: [
        { value: 'long point', label: 'long points' },
        { value: 'short point', label: 'short points' },
        { value: 'center line', label: 'center lines' },
      ],
    },
    {
      name: 'rows',
      label: 'Pieces',
      type: 'rows',
      start: {
        in: [{ count: 4, length: '24', a: 45, b: 45 }],
        mm: [{ count: 4, length: 600, a: 45, b: 45 }],
      },
      hint: 'Angles from square. Both positive: ends opposed; one negative: ends parallel; 0: square.',
      columns: [
        {
          name: 'count',
          label: 'Count',
          type: 'count',
          start: 1,
          least: 1,
          most: mostPieces,
          why: `a row holds 1 to ${mostPieces} pieces`,
        },
        { name: 'length', label: 'Length', type: 'length', start: { in: '24', mm: 600 } },
        {
          name: 'a',
          label: 'End A',
          type: 'angle',
          start: 0,
          least: -85,
          most: 85,
          why: 'a cut is at most 85° from square',
        },
        {
          name: 'b',
          label: 'End B',
          type: 'angle',
          start: 0,
          least: -85,
          most: 85,
          why: 'a cut is at most 85° from square',
        },
        {
          name: 'section',
          label: 'Section',
          type: 'section',
          start: { kind: 'square-tube', width: 40, wall: 3 },
          optional: true,
        },
        {
          name: 'stands',
          label: 'Miter across',
          type: 'choice',
          start: 'flat',
          optional: true,
          choices: [
            { value: 'flat', label: 'the greater side' },
            { value: 'on edge', label: 'the lesser side' },
          ],
        },
      ],
    },
  ],
  frame(values, { say }) {
    const rows = values.rows as readonly RowValue[]
    const problems: Problem[] = []
    const total = rows.reduce((sum, row) => sum + (row.count as number), 0)
    if (rows.length === 0)
      problems.push({
        code: 'empty',
        text: 'The list is empty; give at least one row.',
        field: 'build.params.rows',
      })
    if (total > mostPieces)
      problems.push({
        code: 'too-many',
        text: `${total} pieces were given; one list holds at most ${mostPieces}.`,
        field: 'build.params.rows',
      })
    const members: Member[] = []
    let away = 0
    rows.forEach((row, at) => {
      const section = standing(
        (row.section as Section | undefined) ?? (values.section as Section),
        row.stands,
      )
      const first = pieceOf(row, values.lengthIs as LengthKind, section, `row-${at + 1}/piece-1`, 0)
      const least = leastLength(row, values.lengthIs as LengthKind, section)
      if (!first) {
        problems.push({
          code: 'too-short',
          text:
            `Row ${at + 1}: ${say(row.length as Mm)} ${String(values.lengthIs)} leaves no steel on the short side; ` +
            `with these angles it must be more than ${say(least)}.`,
          field: `build.params.rows[${at}].length`,
        })
        return
      }
      if (total > mostPieces) return
      for (let k = 1; k <= (row.count as number); k++) {
        const id = `row-${at + 1}/piece-${k}`
        members.push(pieceOf(row, values.lengthIs as LengthKind, section, id, away)!)
        away += section.width * 1.5
      }
    })
    if (problems.length > 0) return badAll(problems)
    return assemble({
      members,
      plates: [],
      joints: [],
      hardware: [],
      assemblies: [],
      measures: [],
      tooShort: (short) => ({ code: 'too-short', text: `${short.name} has no steel on its short side.` }),
    })
  },
}

function standing(section: Section, stands: unknown): Section {
  const big = Math.max(section.width, section.height)
  const small = Math.min(section.width, section.height)
  return stands === 'on edge'
    ? { ...section, width: small, height: big }
    : { ...section, width: big, height: small }
}

/** Slopes of the two ends: angles of one sign are opposed (long side on −y), of two signs parallel. */
function slopes(row: RowValue): { readonly p: number; readonly u: number } {
  return { p: tanDeg(row.a as Deg), u: -tanDeg(row.b as Deg) }
}

/** Center length that gives the stated length. */
function centerOf(row: RowValue, kind: LengthKind, width: Mm): Mm {
  const { p, u } = slopes(row)
  const length = row.length as Mm
  const half = width / 2
  if (kind === 'center line') return length
  if (kind === 'long point') return length - half * (Math.abs(p) + Math.abs(u))
  return length + half * Math.abs(u - p)
}

/** The stated length at which the short side has just no steel. */
function leastLength(row: RowValue, kind: LengthKind, section: Section): Mm {
  const { p, u } = slopes(row)
  const center = (section.width / 2) * Math.abs(u - p)
  if (kind === 'center line') return center
  return kind === 'short point' ? 0 : center + (section.width / 2) * (Math.abs(p) + Math.abs(u))
}

function pieceOf(
  row: RowValue,
  kind: LengthKind,
  section: Section,
  id: string,
  away: Mm,
): Member | undefined {
  const { p, u } = slopes(row)
  const center = centerOf(row, kind, section.width)
  if (!(center > samePoint)) return undefined
  const start = member(
    id,
    `Piece ${id.slice(id.lastIndexOf('-') + 1)}`,
    section,
    [0, away, section.height / 2],
    [center, away, section.height / 2],
    [0, 0, 1],
  )
  const cut = (of: Member, end: 'A' | 'B', slope: number) =>
    cutEnd(
      of,
      end,
      toWorld(of.pose, [end === 'A' ? 0 : center, 0, 0]),
      // The normal of the plane x = slope · y, in a frame whose axes lie along the world's.
      [1, -slope, 0],
      'open',
    )
  const made = cut(cut(start, 'A', p), 'B', u)
  return Math.min(...edgesOf(made).lengths) > samePoint ? made : undefined
}
