import type { NumberedFace, PartDrawing } from '../../core/parts/part-drawing.ts'
import type { Shown } from '../../core/plan-shapes.ts'
import { showAngle, showLength } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import { isRound } from '../../core/section/section.ts'
import type { Reading } from '../../core/shop.ts'
import type { Mm } from '../../core/units.ts'
import { type Along, alongOf } from './along.ts'
import { faceItems } from './face-sketch.ts'
import { partNotes } from './part-notes.ts'
import { besideWords, type Item, type Sketch, textSize, textWide, wrapped } from './sketch.ts'

/** Depth of the smaller face on paper, mm. */
const depths = { least: 10, most: 16 } as const
const rowHigh: Mm = 5.6
const titleSize: Mm = 5.6
/** The section, seen from end A, with the numbers of its faces beside it. */
const sectionWide: Mm = 13
const sectionRoom: Mm = 32

/** What the numbers of a drawing are laid out with. */
export interface PartLayout {
  readonly left: Mm
  readonly along: Along
  readonly wide: Mm
  readonly text: (mm: Mm) => string
  readonly angle: (deg: number) => string
}

/**
 * The drawing of a part on so much width of paper: what it is, then its four faces, each a piece that stays whole on a
 * page. End A is at the left, every number runs from the long point there.
 */
export function partSketch(drawing: PartDrawing, reading: Reading, wide: Mm): readonly Sketch[] {
  const { part, faces } = drawing
  const layout = layoutOf(drawing, wide, reading)
  const short = part.shape === 'square' ? -1 : shortest(faces)
  const { length, shortPoint, primary } = part.printed
  const pieces = faces.map((face, at): Sketch => {
    const made = faceItems(face, layout, drawing.markOf)
    if (at !== short) return { wide, high: made.foot, items: made.items }
    const ends = [face.lower.from, face.lower.to].map((x) => layout.left + layout.along.at(x)) as [Mm, Mm]
    const y = made.foot + 5
    const witness = ends.map((x) => `M${fixed(x)} ${fixed(made.steel + 0.8)}V${fixed(y + 1.5)}`).join('')
    const words = primary === 'edge' ? `edge ${lengthText(length)}` : `short point ${lengthText(shortPoint)}`
    return {
      wide,
      high: y + 3,
      items: [...made.items, ...dimension(ends[0], ends[1], y, words), { kind: 'thin', d: witness }],
    }
  })
  const head = headOf(drawing, reading, layout)
  return [head.sketch, ...pieces.map((piece) => withEnds(piece, 0, part.longPoint, layout))].map(
    (piece, at) => (at === 0 ? withEnds(piece, head.datum, part.longPoint, layout) : piece),
  )
}

/** Lines down the page from both points of the piece: what every number runs from, and its other end. */
function withEnds(piece: Sketch, top: Mm, long: Mm, { left, along }: PartLayout): Sketch {
  const d = [0, long].map((x) => `M${fixed(left + along.at(x))} ${fixed(top)}V${fixed(piece.high)}`).join('')
  return { ...piece, items: [{ kind: 'dash', d }, ...piece.items] }
}

/** Name, section and notes, the end with its faces, and the length over all. */
function headOf(drawing: PartDrawing, reading: Reading, layout: PartLayout): { sketch: Sketch; datum: Mm } {
  const { part } = drawing
  const { wide, left, along } = layout
  const items: Item[] = []
  let y = titleSize
  for (const line of wrapped(titleOf(drawing), wide, titleSize)) {
    items.push({ kind: 'text', x: 0, y, text: line, size: titleSize, bold: true })
    y += titleSize + 1.5
  }
  const top = y - 2
  const notes = [sectionName(part.section, reading), ...partNotes(drawing, reading)]
  for (const line of notes.flatMap((words) => wrapped(words, wide - sectionRoom - 2))) {
    items.push({ kind: 'text', x: 0, y, text: line })
    y += rowHigh
  }
  items.push(...sectionItems(drawing, wide - sectionRoom / 2, top + sectionRoom / 2))
  y = Math.max(y, top + sectionRoom) + 6
  const over =
    part.printed.primary === 'edge' ? 'over the points' : part.shape === 'square' ? 'length' : 'long point'
  const words = `${over} ${lengthText(part.printed.longPoint)}`
  items.push(...dimension(left, left + along.at(part.longPoint), y, words))
  return { sketch: { wide, high: y + 3, items }, datum: y - 2 }
}

const lengthText = ({ text, lies }: Shown): string => (lies ? `${text} ${lies}` : text)

const fixed = (value: Mm): string => value.toFixed(2)

export function titleOf({ part, number, of }: PartDrawing): string {
  const ways = of > 1 ? `, ${number} of ${of} ways of marking it out` : ''
  return `${part.mark}  ${part.name}${ways}`
}

/** The face under which the shortest edge is dimensioned: it is its lower rim. */
const shortest = (faces: readonly NumberedFace[]): number => {
  const lengths = faces.map(({ lower }) => lower.to - lower.from)
  return lengths.indexOf(Math.min(...lengths))
}

function layoutOf({ part, faces }: PartDrawing, wide: Mm, reading: Reading): PartLayout {
  const text = (mm: Mm) => showLength(mm, reading).text
  const angle = (deg: number) => showAngle(Math.abs(deg), reading).text
  const room = (numbers: readonly string[]) => Math.max(...numbers.map((each) => textWide(each))) + 3
  const left = room(faces.flatMap(({ upper, angles }) => [text(upper.from), angle(angles[0])]))
  const right = room(faces.flatMap(({ upper, angles }) => [text(upper.to), angle(angles[1])]))
  const starts = faces.flatMap(({ outline }) => outline.map(([x]) => x))
  const middle = part.longPoint / 2
  const shown: (readonly [Mm, Mm])[] = [
    [0, Math.max(...starts.filter((x) => x < middle))],
    [Math.min(...starts.filter((x) => x >= middle)), part.longPoint],
    ...faces.flatMap(({ marks }) => marks.map(({ near, far }) => [near, far] as const)),
  ]
  const { width, height } = part.section
  const depth = Math.max(Math.min(width, height), Math.max(width, height) / 2.5)
  return {
    left,
    along: alongOf(shown, part.longPoint, depth, wide - left - right, depths),
    wide,
    text,
    angle,
  }
}

/** A dimension line with slanted ticks, its number in its middle. */
export function dimension(from: Mm, to: Mm, y: Mm, words: string): Item[] {
  const tick = (x: Mm) => `M${(x - 1).toFixed(2)} ${(y + 1).toFixed(2)}l2 -2`
  const line = besideWords(from, to, words).map(
    ([a, b]) => `M${a.toFixed(2)} ${y.toFixed(2)}H${b.toFixed(2)}`,
  )
  return [
    { kind: 'thin', d: `${line.join('')}${tick(from)}${tick(to)}` },
    { kind: 'text', x: (from + to) / 2, y: y + textSize * 0.36, text: words, anchor: 'middle', bold: true },
  ]
}

/** The end seen from A, with the numbers of the faces round it and the ground under the one that is down. */
function sectionItems({ part, faces, down }: PartDrawing, x: Mm, y: Mm): Item[] {
  const [wide, high] = [faces[0]!.across, faces[1]!.across]
  const scale = sectionWide / Math.max(wide, high)
  const [w, h] = [(wide * scale) / 2, (high * scale) / 2]
  const r = Math.min(isRound(part.section) ? w : part.section.cornerRadius * scale, w, h)
  const box = `M${x - w + r} ${y - h}h${2 * (w - r)}a${r} ${r} 0 0 1 ${r} ${r}v${2 * (h - r)}a${r} ${r} 0 0 1 ${-r} ${r}h${-2 * (w - r)}a${r} ${r} 0 0 1 ${-r} ${-r}v${-2 * (h - r)}a${r} ${r} 0 0 1 ${r} ${-r}Z`
  const away = 3.2
  const sides = [
    [x, y - h - away],
    [x + w + away, y],
    [x, y + h + away],
    [x - w - away, y],
  ] as const
  const ground = typeof down === 'number' ? groundUnder(down - 1, x, y, w, h) : []
  return [
    { kind: 'steel', d: box },
    ...ground,
    ...faces.map(
      ({ number }, k): Item => ({
        kind: 'text',
        x: sides[k]![0],
        y: sides[k]![1] + textSize * 0.36,
        text: String(number),
        anchor: 'middle',
        bold: true,
      }),
    ),
    { kind: 'text', x, y: y - sectionRoom / 2 + 3, text: 'from end A', anchor: 'middle' },
  ]
}

/** Hatching beyond the face that lies on the ground. */
function groundUnder(side: number, x: Mm, y: Mm, w: Mm, h: Mm): Item[] {
  // The drawing is rolled so that what is up stands at the top: only the lowest face is ever down.
  if (side !== 2) return []
  const level = y + h + 6
  const ticks = Array.from({ length: 6 }, (_, k) => `M${x - w + (k * w) / 2.5} ${level}l-1.5 1.5`).join('')
  return [{ kind: 'thin', d: `M${x - w - 2} ${level}H${x + w + 2}${ticks}` }]
}
