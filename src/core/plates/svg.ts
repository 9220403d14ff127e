import type { Point } from '../geometry/polygon.ts'
import { type Ring, type SheetDrawing, spanOf } from './sheet-drawing.ts'

const margin = 10
/** A line of known length beside the plate: if it measures wrong, so does the plate. */
const bar = 100

/** The drawing at its real size, as a standing picture: 1 mm in it is 1 mm on paper or at the table. */
export function svgOf(drawing: SheetDrawing): string {
  const [low, high] = spanOf(drawing)
  const width = Math.max(high[0] - low[0], bar) + 2 * margin
  const height = high[1] - low[1] + 3 * margin
  const place = ([x, y]: Point) => `${number(x - low[0] + margin)} ${number(high[1] - y + margin)}`
  const closed = (points: readonly Point[]) => `M${points.map(place).join('L')}Z`
  const ring = (of: Ring, id: string, style: string) => {
    if ('polygon' in of) return `<path id="${id}" d="${closed(of.polygon)}" ${style}/>`
    const [cx, cy] = place(of.at).split(' ')
    return `<circle id="${id}" cx="${cx}" cy="${cy}" r="${number(of.radius)}" ${style}/>`
  }
  const line = 'fill="none" stroke="#000"'
  const parts = [
    ring(drawing.part, 'part', `${line} stroke-width="0.5"`),
    ...(drawing.cut
      ? [ring(drawing.cut, 'cut', `${line} stroke-width="0.25" stroke-dasharray="6 2 1 2"`)]
      : []),
    ...drawing.holes.map(({ at, diameter }) => {
      const [cx, cy] = place(at).split(' ')
      return `<circle class="hole" cx="${cx}" cy="${cy}" r="${number(diameter / 2)}" ${line} stroke-width="0.25"/>`
    }),
    ...drawing.slots.map(({ ends, width: wide }) => {
      const [[ax, ay], [bx, by]] = ends
      const long = Math.hypot(bx - ax, by - ay)
      const half = wide / 2
      const [u, v] = long > 0 ? [((by - ay) / long) * half, (-(bx - ax) / long) * half] : [half, 0]
      const arc = (to: Point) => `A${number(half)} ${number(half)} 0 0 0 ${place(to)}`
      const d = `M${place([ax + u, ay + v])}L${place([bx + u, by + v])}${arc([bx - u, by - v])}L${place([ax - u, ay - v])}${arc([ax + u, ay + v])}Z`
      return `<path class="slot" d="${d}" ${line} stroke-width="0.25"/>`
    }),
    ...drawing.guides.map(
      ({ from, to }) =>
        `<path class="guide" d="M${place(from)}L${place(to)}" ${line} stroke-width="0.25" stroke-dasharray="2 2"/>`,
    ),
    `<path id="bar" d="M${margin} ${number(height - margin)}h${bar}m0 -2v4m${-bar} 0v-4" ${line} stroke-width="0.25"/>`,
    `<text x="${margin}" y="${number(height - margin - 3)}" font-size="4" font-family="sans-serif">100 mm</text>`,
  ]
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}">`,
    `<title>${escaped(drawing.name)}</title>`,
    ...parts,
    '</svg>',
    '',
  ].join('\n')
}

const number = (value: number): string => String(+value.toFixed(6))

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
