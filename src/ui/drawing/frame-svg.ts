import type { Plan } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import { type LandedLines, landedIn, landedLines } from './landed.ts'
import { marksOf } from './marks.ts'
import { backToFront, type Seen } from './shapes.ts'
import { linesOf, type Place, toScreen } from './sheet.ts'
import { escaped } from './sketch.ts'
import { solidsOf } from './solid.ts'
import { type Extent, fromAbove, fromFront, turned, type View } from './view.ts'

/** Width of the drawing and room round each view, mm on paper. */
const wide = 190
const room = 12

const views: readonly (readonly [string, View])[] = [
  ['from above', fromAbove],
  ['from the front', fromFront],
  ['from the right', turned(90, 0)],
]

const whole = (seen: readonly Seen[]): Extent => ({
  left: Math.min(...seen.map(({ extent }) => extent.left)),
  right: Math.max(...seen.map(({ extent }) => extent.right)),
  bottom: Math.min(...seen.map(({ extent }) => extent.bottom)),
  top: Math.max(...seen.map(({ extent }) => extent.top)),
})

/**
 * The frame from above, below that from the front and beside it from the right, to one scale, black on white, with its
 * marks. Hidden edges are left out; where a part lands on another is dashed.
 */
export function frameSvg(plan: Plan, reading: Reading): string {
  const solids = solidsOf(plan.frame)
  const landed = landedIn(plan.frame)
  const [above, front, right] = views.map(([name, view]): Drawn => {
    const seen = backToFront(solids, view)
    return { name, seen, landed: landedLines(landed, seen, view), span: whole(seen) }
  }) as [Drawn, Drawn, Drawn]
  const across = ({ span }: Drawn) => span.right - span.left
  const high = ({ span }: Drawn) => span.top - span.bottom
  const scale = (wide - 3 * room) / (Math.max(across(above), across(front)) + across(right))
  const second = 2 * room + Math.max(across(above), across(front)) * scale
  const below = 2 * room + high(above) * scale
  const height = below + high(front) * scale + 2 * room
  const at = (of: Drawn, left: number, top: number): Place => ({
    scale,
    x: left - of.span.left * scale,
    y: top + of.span.top * scale,
  })
  const [x, y, z] = plan.frame.size
  const size = `${say(x, reading)} × ${say(y, reading)}, ${say(z, reading)} high; 1 : ${+(1 / scale).toFixed(1)}`
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}mm" height="${height.toFixed(2)}mm" viewBox="0 0 ${wide} ${height.toFixed(2)}">`,
    `<title>${escaped(plan.name)}</title>`,
    `<rect width="${wide}" height="${height.toFixed(2)}" fill="#fff"/>`,
    group(plan, above, at(above, room, room)),
    group(plan, front, at(front, room, below)),
    group(plan, right, at(right, second, below)),
    text(room, height - 5, `${plan.name}: ${size}`, 'start'),
    '</svg>',
    '',
  ].join('\n')
}

interface Drawn {
  readonly name: string
  readonly seen: readonly Seen[]
  readonly landed: readonly LandedLines[]
  readonly span: Extent
}

function group(plan: Plan, { name, seen, landed, span }: Drawn, place: Place): string {
  const line = (width: number) => `fill="none" stroke="#000" stroke-width="${width}" stroke-linecap="round"`
  const shapes = seen.map(
    ({ rim, edges }) =>
      `<path d="${linesOf(place, rim)}" ${line(0.5)}/><path d="${linesOf(place, edges)}" ${line(0.25)}/>`,
  )
  const dashed = linesOf(
    place,
    landed.flatMap(({ lines }) => lines),
  )
  if (dashed !== '') shapes.push(`<path d="${dashed}" ${line(0.25)} stroke-dasharray="1.5 1"/>`)
  // Marks keep the room of a screen from each other: four of its dots to a millimeter.
  const dots = { scale: place.scale * 4, x: place.x * 4, y: place.y * 4 }
  const marks = marksOf(plan, seen, dots, () => false).map(({ at: [x, y], mark }) =>
    text(x / 4, y / 4 + 1.2, mark),
  )
  const [left, low] = toScreen(place, [span.left, span.bottom])
  return `<g>${shapes.join('\n')}\n${marks.join('')}${text(left, low + 5, name, 'start')}</g>`
}

const text = (x: number, y: number, words: string, anchor = 'middle') =>
  `<text x="${x.toFixed(2)}" y="${y.toFixed(2)}" font-size="3.5" font-family="sans-serif" text-anchor="${anchor}">${escaped(words)}</text>`
