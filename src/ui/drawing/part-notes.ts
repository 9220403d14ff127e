import type { Polygon } from '../../core/geometry/polygon.ts'
import type { EndMeets, PartDrawing } from '../../core/parts/part-drawing.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'

/** Names that are said before it is "and so many more". */
const mostNames = 4

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`

function namesText(names: readonly string[]): string {
  const plain = [...new Set(names)]
  if (plain.length <= mostNames) return listed(plain)
  return `${plain.slice(0, mostNames - 1).join(', ')} and ${plain.length - mostNames + 1} more`
}

function endText(end: 'A' | 'B', { marks, floor, saddle }: EndMeets): string {
  const meets = floor ? 'stands on the floor' : marks.length > 0 ? `meets ${listed(marks)}` : 'is open'
  return `End ${end} ${meets}${saddle ? ', with a saddle: see its template' : ''}.`
}

function downText({ down }: PartDrawing): string {
  return typeof down === 'number'
    ? `In the frame face ${down} is down.`
    : `In the frame it stands upright, ${down} down.`
}

function sawText({ part, leaning }: PartDrawing): string[] {
  if (part.shape === 'square' || part.saddles) return []
  if (leaning.length === 0) return ['An end leans both ways: set it as the saw sheet says.']
  return [
    `The angle shows on faces ${listed(leaning.map(String))}: one of them lies on the table of the saw.`,
  ]
}

/** More corners than this are a curve, which is marked from its template. */
const mostCorners = 8

/** Whether the sides of a landing run along the piece or end at the rims of its face, as near and far edge say it. */
const isLevel = (outline: Polygon): boolean =>
  outline.length > mostCorners ||
  outline.every(([x, v], at) => {
    const [u, w] = outline[(at + 1) % outline.length]!
    return Math.abs(x - u) < 0.1 || Math.abs(v - w) < 0.1
  })

/** Landings that are neither as wide as the face nor in its middle. */
function besideMiddle({ faces }: PartDrawing, nameOf: (id: string) => string, reading: Reading): string[] {
  const said = faces.flatMap(({ number, across, marks }) =>
    marks.flatMap(({ by, outline }) => {
      const text = (mm: number) => showLength(mm, reading).text
      if (!isLevel(outline)) {
        const corners = outline.map(([x, v]) => `${text(x)}, ${text(across / 2 - v)}`)
        return [
          `${nameOf(by)} on face ${number} lies turned; its corners along, and below the upper edge: ${corners.join('; ')}.`,
        ]
      }
      const vs = outline.map(([, v]) => v)
      const [low, high] = [Math.min(...vs), Math.max(...vs)]
      if (Math.abs(low + high) < 0.1) return []
      const { unit } = showLength(0, reading)
      return [`${nameOf(by)} on face ${number}: ${text(across / 2 - high)} ${unit} below its upper edge.`]
    }),
  )
  return [...new Set(said)]
}

/** What the drawing itself cannot show, in plain sentences. */
export function partNotes(drawing: PartDrawing, reading: Reading): readonly string[] {
  const { part, names, ends } = drawing
  const { mass, angles } = part.printed
  const rises = [...new Set(angles.flatMap(({ text, rise }) => (rise ? [`${text} rises ${rise}.`] : [])))]
  const marked = drawing.faces.some(({ marks }) => marks.length > 0)
  return [
    `For ${namesText(names)}; ${mass} each.`,
    downText(drawing),
    ...sawText(drawing),
    ...rises,
    `${endText('A', ends[0])} ${endText('B', ends[1])}`,
    `Numbers run from the long point at end A, in ${showLength(0, reading).unit === 'in' ? 'inches' : 'mm'}.`,
    ...(marked ? ['X: covered there by the part named below.'] : []),
    ...besideMiddle(drawing, drawing.markOf, reading),
  ]
}
