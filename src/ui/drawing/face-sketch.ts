import type { NumberedFace } from '../../core/parts/part-drawing.ts'
import type { FaceMark } from '../../core/parts/part-faces.ts'
import type { Mm } from '../../core/units.ts'
import { spreadOut } from './along.ts'
import type { PartLayout } from './part-sketch.ts'
import { type Item, pathThrough, textSize, textWide } from './sketch.ts'

const half = textSize * 0.36
/** Least from one line of text to the next. */
const lineHigh = textSize + 0.4

export interface FaceDrawn {
  readonly items: readonly Item[]
  /** Lower rim of the steel, and where the next thing may begin, mm down the page. */
  readonly steel: Mm
  readonly foot: Mm
}

/** One face with its name above it, its ends beside it, and what lands on it. */
export function faceItems(face: NumberedFace, layout: PartLayout, markOf: (id: string) => string): FaceDrawn {
  const { left, along } = layout
  const marks = [...face.marks].sort((a, b) => a.near - b.near)
  const numbers = [
    ...new Map(marks.flatMap(({ near, far }) => [near, far]).map((x) => [layout.text(x), x])).values(),
  ].sort((a, b) => a - b)
  const tall = marks.length === 0 ? 0 : Math.max(...numbers.map((x) => textWide(layout.text(x)))) + 4
  const name = textSize + 1
  const deep = face.across * along.scale
  // Beside a thin face its three numbers reach past it.
  const past = Math.max(0, lineHigh - deep / 2)
  const rim = name + 3.5 + Math.max(past, tall)
  const middle = rim + deep / 2
  const place = ([x, v]: readonly [Mm, Mm]) => [left + along.at(x), middle - v * along.scale] as const
  const foot = rim + deep
  return {
    items: [
      {
        kind: 'text',
        x: 0,
        y: name,
        text: `${face.number}  ${face.words}${face.down ? ', down' : ''}`,
        bold: true,
      },
      { kind: 'steel', d: `${pathThrough(face.outline.map(place))}Z` },
      ...marks.flatMap((mark) => markItems(mark, place)),
      ...along.breaks.flatMap((x) => breakItems(left + x, rim, foot)),
      ...endItems(face, layout, middle, deep),
      ...ordinates(numbers, layout, rim),
      ...marksBelow(marks, layout, foot, markOf),
    ],
    steel: foot,
    foot: foot + Math.max(past, marks.length > 0 ? lineHigh : 0) + 2,
  }
}

/** Outline of a landing with its X. */
function markItems({ outline }: FaceMark, place: (at: readonly [Mm, Mm]) => readonly [Mm, Mm]): Item[] {
  const points = outline.map(place)
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const [x, y] = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2]
  // The X is a sign, not a shape: as large as goes well into the outline.
  const arm = Math.min(Math.max(...xs) - x, Math.max(...ys) - y, 4) * 0.6
  const cross = `M${x - arm} ${y - arm}l${2 * arm} ${2 * arm}M${x + arm} ${y - arm}l${-2 * arm} ${2 * arm}`
  return [
    { kind: 'thin', d: `${pathThrough(points)}Z` },
    { kind: 'thick', d: cross },
  ]
}

/** Numbers of the two edges at each end, and the angle between them; one number where the end is square on this face. */
function endItems(face: NumberedFace, layout: PartLayout, middle: Mm, deep: Mm): Item[] {
  const { left, along, text, angle } = layout
  const spread = Math.max(deep / 2, lineHigh)
  return (['from', 'to'] as const).flatMap((end, k): Item[] => {
    const [upper, lower] = [face.upper[end], face.lower[end]]
    const outer = face.outline.map(([x]) => x)
    const at = left + along.at(end === 'from' ? Math.min(...outer) : Math.max(...outer))
    const x = end === 'from' ? at - 1.5 : at + 1.5
    const anchor = end === 'from' ? 'end' : 'start'
    const words = (y: Mm, said: string, bold?: true): Item => ({
      kind: 'text',
      x,
      y: y + half,
      text: said,
      anchor,
      ...(bold ? { bold } : {}),
    })
    if (text(upper) === text(lower)) return [words(middle, text(upper))]
    return [
      words(middle - spread, text(upper)),
      words(middle, angle(face.angles[k]!), true),
      words(middle + spread, text(lower)),
    ]
  })
}

/** Where the landings begin and end, read from the right, each with a line to its place. */
function ordinates(numbers: readonly Mm[], { left, along, wide, text }: PartLayout, rim: Mm): Item[] {
  const places = numbers.map((x) => left + along.at(x))
  const spread = spreadOut(places, lineHigh, wide - half - 1)
  return numbers.flatMap((x, k): Item[] => [
    {
      kind: 'thin',
      d: pathThrough([
        [places[k]!, rim - 0.3],
        [places[k]!, rim - 1],
        [spread[k]!, rim - 3],
      ]),
    },
    { kind: 'text', x: spread[k]! + half, y: rim - 3.6, text: text(x), turned: true },
  ])
}

/** Mark of what lands, under its place. */
function marksBelow(
  marks: readonly FaceMark[],
  { left, along, wide }: PartLayout,
  foot: Mm,
  markOf: (id: string) => string,
): Item[] {
  const names = marks.map(({ by }) => markOf(by))
  const least = Math.max(0, ...names.map((name) => textWide(name))) + 1
  const places = spreadOut(
    marks.map(({ near, far }) => left + (along.at(near) + along.at(far)) / 2),
    least,
    wide - least / 2,
  )
  return names.map(
    (text, k): Item => ({
      kind: 'text',
      x: places[k]!,
      y: foot + textSize,
      text,
      anchor: 'middle',
      bold: true,
    }),
  )
}

/** More of the same steel between: a white gap and its two edges. */
function breakItems(x: Mm, top: Mm, foot: Mm): Item[] {
  const middle = (top + foot) / 2
  const edge = (at: Mm) =>
    `M${at.toFixed(2)} ${(top - 1).toFixed(2)}V${(middle - 2).toFixed(2)}l-1.2 1.2l2.4 1.6l-1.2 1.2V${(foot + 1).toFixed(2)}`
  return [
    { kind: 'gap', d: `M${x.toFixed(2)} ${(top - 1).toFixed(2)}V${(foot + 1).toFixed(2)}` },
    { kind: 'thin', d: edge(x - 1) + edge(x + 1) },
  ]
}
