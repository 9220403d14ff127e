import { partDrawings } from '../core/parts/part-drawing.ts'
import type { Plan } from '../core/plan-shapes.ts'
import type { Shop } from '../core/shop.ts'
import type { Mm } from '../core/units.ts'
import { partSketch, titleOf } from '../ui/drawing/part-sketch.ts'
import type { Sketch } from '../ui/drawing/sketch.ts'
import { SketchPicture } from '../ui/drawing/sketch-picture.tsx'
import { type Block, flow } from './flow.ts'
import { numbered, orderName } from './page.tsx'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// A drawing of each part: its four faces with angles and layout marks. Numbers are as high as those of a drawing, 3 mm.

/** Room under a drawing. */
const below: Mm = 6

export interface PartStrip {
  readonly pieces: readonly Sketch[]
  readonly label: string
}

export function partBlocks(plan: Plan, shop: Shop, page: PageSize): Block<string, PartStrip>[] {
  const wide = bodyWide(page)
  return partDrawings(plan).map((drawing): Block<string, PartStrip> => {
    const { part, number, of, count } = drawing
    const head = `${part.mark} × ${count * plan.quantity}${of > 1 ? `, ${number} of ${of}` : ''}`
    const pieces = partSketch(drawing, shop.reading, wide)
    return {
      head: { high: linesOf(head, wide, 'bold') * lineHigh + 2, what: head },
      strips: pieces.map((piece, at) => ({
        high: piece.high + (at === pieces.length - 1 ? below : 0),
        what: { pieces: [piece], label: at === 0 ? titleOf(drawing) : `${part.mark}, face ${at}` },
      })),
      whole: true,
    }
  })
}

export function partSheet(plan: Plan, shop: Shop, page: PageSize) {
  const pages = flow(partBlocks(plan, shop, page), bodyHigh(page))
  return numbered(
    {
      page,
      job: orderName(plan),
      title: 'Part drawings',
      foot: 'To scale; what a break leaves out is plain tube.',
    },
    pages,
    (blocks) =>
      blocks.map(({ head, again, strips }, block) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: blocks never move
        <article key={block}>
          <h2 className="part-heading">
            {head}
            {again ? ', continued' : ''}
          </h2>
          {strips.map(({ pieces, label }, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows never move
            <SketchPicture key={row} pieces={pieces} perMm={1} unit="mm" label={label} />
          ))}
        </article>
      )),
  )
}
