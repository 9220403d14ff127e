import type { Plan } from '../../core/plan-shapes.ts'
import { say, showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import type { Mm } from '../../core/units.ts'
import { type Dimension, dimensionsOf } from './dimensions.ts'
import type { TypedLength } from './fields.ts'
import { landedIn, landedLines } from './landed.ts'
import { rowsOf } from './layout.ts'
import { marksOf } from './marks.ts'
import { platesOnTop } from './on-top.ts'
import { backToFront, type Seen } from './shapes.ts'
import { linesOf, type Place, toScreen } from './sheet.ts'
import { besideWords, type Item, type Sketch, sketchSvg, textSize, textWide } from './sketch.ts'
import { solidsOf } from './solid.ts'
import { type Extent, extentOf, fromAbove, fromFront, turned, type View } from './view.ts'

/** Size of the drawing as a file, mm: with its border it goes on either paper. */
const file = { wide: 185, high: 240 } as const
/** Room of a row of dimensions, of the name over a view, and between the views, mm. */
const row: Mm = 8
const name: Mm = 7
const gap: Mm = 10

interface Drawn {
  readonly name: string
  readonly view: View
  readonly seen: readonly Seen[]
  readonly span: Extent
}

function drawn(plan: Plan, name: string, view: View, open: ReadonlySet<string>): Drawn {
  const seen = backToFront(solidsOf(plan.frame), view, ({ id }) => open.has(id))
  const span = extentOf(
    seen.flatMap(({ extent }) => [
      [extent.left, extent.bottom] as const,
      [extent.right, extent.top] as const,
    ]),
  )
  return { name, view, seen, span }
}

/**
 * The frame from above, below that from the front and beside it from the right, to one scale, black on white, with its
 * marks and dimensions, within so much paper. Hidden edges are left out; where a part lands on another is dashed.
 */
export function frameSketch(
  plan: Plan,
  reading: Reading,
  room: { readonly wide: Mm; readonly high: Mm },
  typed: readonly TypedLength[] = [],
): Sketch {
  const onTop = platesOnTop(plan)
  const above = drawn(plan, 'from above', fromAbove, onTop)
  const front = drawn(plan, 'from the front', fromFront, new Set())
  const right = drawn(plan, 'from the right', turned(90, 0), new Set())
  const dimensions = dimensionsOf(plan, typed)
  const rows = (view: Dimension['view'], side: Dimension['side']) =>
    rowsOf(dimensions, view, side).length * row + 2
  const left = Math.min(above.span.left, front.span.left)
  const across = Math.max(above.span.right, front.span.right) - left
  const high = ({ span }: Drawn) => span.top - span.bottom
  const margins = {
    wide: rows('plan', 'left') + rows('front', 'right') + gap,
    high: 2 * name + rows('plan', 'bottom') + rows('front', 'bottom') + gap + name,
  }
  const scale = Math.min(
    (room.wide - margins.wide) / (across + right.span.right - right.span.left),
    // A view that is narrower than its name still leaves it room.
    (room.wide - margins.wide - textWide(right.name)) / across,
    (room.high - margins.high) / (high(above) + high(front)),
  )
  const x = rows('plan', 'left')
  const place = ({ span }: Drawn, at: Mm, top: Mm): Place => ({ scale, x: at, y: top + span.top * scale })
  const below = name + high(above) * scale + rows('plan', 'bottom') + gap + name
  const [planAt, frontAt] = [place(above, x - left * scale, name), place(front, x - left * scale, below)]
  const second = x + across * scale + rows('front', 'right') + gap
  const rightAt = place(right, second - right.span.left * scale, below)
  const foot = below + high(front) * scale + rows('front', 'bottom') + name
  const [wide, deep, tall] = plan.frame.size.map((mm) => say(mm, reading))
  const size = `${plan.name}: ${wide} × ${deep}, ${tall} high; 1 : ${+(1 / scale).toFixed(1)}`
  return {
    wide: room.wide,
    high: foot + 2,
    items: [
      ...viewItems(plan, above, planAt, onTop),
      ...viewItems(plan, front, frontAt, new Set()),
      ...viewItems(plan, right, rightAt, new Set()),
      ...dimensions.flatMap((one) =>
        dimensionItems(
          one,
          rowsOf(dimensions, one.view, one.side).indexOf(one),
          one.view === 'plan' ? planAt : frontAt,
          one.view === 'plan' ? above.span : front.span,
          showLength(one.to - one.from, reading).text,
        ),
      ),
      { kind: 'text', x: 0, y: foot, text: size },
    ],
  }
}

function viewItems(
  plan: Plan,
  { name: words, view, seen, span }: Drawn,
  place: Place,
  open: ReadonlySet<string>,
): Item[] {
  const landed = landedLines(landedIn(plan.frame), seen, view).flatMap(({ lines }) => lines)
  // Marks keep the room of a screen from each other: four of its dots to a millimeter.
  const dots = { scale: place.scale * 4, x: place.x * 4, y: place.y * 4 }
  const marks = marksOf(plan, seen, dots)
  const [left, top] = toScreen(place, [span.left, span.top])
  return [
    ...seen.flatMap(({ id, rim, edges }): Item[] =>
      open.has(id)
        ? [{ kind: 'dash', d: linesOf(place, rim) }]
        : [
            { kind: 'thick', d: linesOf(place, rim) },
            { kind: 'thin', d: linesOf(place, edges) },
          ],
    ),
    ...(landed.length > 0 ? [{ kind: 'dash', d: linesOf(place, landed) } as const] : []),
    ...marks.map(
      ({ at: [x, y], mark }): Item => ({
        kind: 'text',
        x: x / 4,
        y: y / 4 + textSize * 0.36,
        text: mark,
        anchor: 'middle',
        bold: true,
      }),
    ),
    { kind: 'text', x: left, y: top - 2, text: words },
  ]
}

/** A dimension with its two witness lines, in its row beside the view; the number stands in the line. */
function dimensionItems(one: Dimension, at: number, place: Place, span: Extent, words: string): Item[] {
  const away = at * row + 6
  const fixed = (mm: Mm) => mm.toFixed(2)
  if (one.side === 'bottom') {
    const [a, foot] = toScreen(place, [one.from, span.bottom])
    const [b] = toScreen(place, [one.to, span.bottom])
    const y = foot + away
    const witness = [a, b].map((x) => `M${fixed(x)} ${fixed(foot + 1)}V${fixed(y + 1.5)}`).join('')
    const line = besideWords(a, b, words).map(([u, v]) => `M${fixed(u)} ${fixed(y)}H${fixed(v)}`)
    return [
      { kind: 'thin', d: `${line.join('')}${witness}${tick(a, y)}${tick(b, y)}` },
      { kind: 'text', x: (a + b) / 2, y: y + textSize * 0.36, text: words, anchor: 'middle' },
    ]
  }
  const side = one.side === 'left' ? -1 : 1
  const edge = toScreen(place, [one.side === 'left' ? span.left : span.right, 0])[0]
  const [a, b] = [toScreen(place, [0, one.from])[1], toScreen(place, [0, one.to])[1]]
  const x = edge + side * away
  const witness = [a, b].map((y) => `M${fixed(edge + side)} ${fixed(y)}H${fixed(x + side * 1.5)}`).join('')
  const line = besideWords(a, b, words).map(([u, v]) => `M${fixed(x)} ${fixed(u)}V${fixed(v)}`)
  return [
    { kind: 'thin', d: `${line.join('')}${witness}${tick(x, a)}${tick(x, b)}` },
    {
      kind: 'text',
      x: x + textSize * 0.36,
      y: (a + b) / 2,
      text: words,
      anchor: 'middle',
      turned: true,
    },
  ]
}

const tick = (x: Mm, y: Mm) => `M${(x - 1).toFixed(2)} ${(y + 1).toFixed(2)}l2 -2`

/** The same as a file. */
export const frameSvg = (plan: Plan, reading: Reading, typed: readonly TypedLength[]): string =>
  sketchSvg(plan.name, [frameSketch(plan, reading, file, typed)])
