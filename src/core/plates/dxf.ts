import type { Point } from '../geometry/polygon.ts'
import { inch } from '../units.ts'
import type { Ring, SheetDrawing } from './sheet-drawing.ts'

/**
 * The drawing as DXF text (the ASCII interchange format, entities of its release 12, which every reader takes), in inches
 * or millimeters, said in $INSUNITS. Layers: PART the finished edge, CUT the middle of the kerf, HOLES, GUIDE the straight
 * edge of a hand torch.
 */
export function dxfOf(drawing: SheetDrawing, units: 'in' | 'mm'): string {
  const per = units === 'in' ? inch : 1
  const lines: string[] = []
  const put = (code: number, value: string | number) => {
    lines.push(String(code), typeof value === 'number' ? number(value) : value)
  }
  const at = ([x, y]: Point, first = 10) => {
    put(first, x / per)
    put(first + 10, y / per)
    put(first + 20, 0)
  }
  put(0, 'SECTION')
  put(2, 'HEADER')
  put(9, '$ACADVER')
  put(1, 'AC1009')
  put(9, '$INSUNITS')
  lines.push('70', units === 'in' ? '1' : '4')
  put(9, '$MEASUREMENT')
  lines.push('70', units === 'in' ? '0' : '1')
  put(0, 'ENDSEC')
  layers(put, lines)
  put(0, 'SECTION')
  put(2, 'ENTITIES')
  const circle = (layer: string, middle: Point, radius: number) => {
    put(0, 'CIRCLE')
    put(8, layer)
    at(middle)
    put(40, radius / per)
  }
  /** Closed; a bulge of 1 is half a circle to the next point. */
  const closed = (layer: string, points: readonly (readonly [Point, number])[]) => {
    put(0, 'POLYLINE')
    put(8, layer)
    lines.push('66', '1')
    at([0, 0])
    lines.push('70', '1')
    for (const [point, bulge] of points) {
      put(0, 'VERTEX')
      put(8, layer)
      at(point)
      if (bulge !== 0) put(42, bulge)
    }
    put(0, 'SEQEND')
    put(8, layer)
  }
  const ring = (layer: string, of: Ring) => {
    if ('polygon' in of)
      closed(
        layer,
        of.polygon.map((point) => [point, 0] as const),
      )
    else circle(layer, of.at, of.radius)
  }
  ring('PART', drawing.part)
  if (drawing.cut) ring('CUT', drawing.cut)
  for (const hole of drawing.holes) circle('HOLES', hole.at, hole.diameter / 2)
  for (const slot of drawing.slots) {
    const [[ax, ay], [bx, by]] = slot.ends
    const long = Math.hypot(bx - ax, by - ay)
    const half = slot.width / 2
    const [u, v] = long > 0 ? [((by - ay) / long) * half, (-(bx - ax) / long) * half] : [half, 0]
    closed('HOLES', [
      [[ax + u, ay + v], 0],
      [[bx + u, by + v], 1],
      [[bx - u, by - v], 0],
      [[ax - u, ay - v], 1],
    ])
  }
  for (const { from, to } of drawing.guides) {
    put(0, 'LINE')
    put(8, 'GUIDE')
    at(from)
    at(to, 11)
  }
  put(0, 'ENDSEC')
  put(0, 'EOF')
  return `${lines.join('\r\n')}\r\n`
}

/** Names and colors of the layers; colors are the format's own numbers. */
const layerColors = { PART: 7, CUT: 1, HOLES: 5, GUIDE: 3 } as const

function layers(put: (code: number, value: string | number) => void, lines: string[]): void {
  put(0, 'SECTION')
  put(2, 'TABLES')
  put(0, 'TABLE')
  put(2, 'LAYER')
  lines.push('70', String(Object.keys(layerColors).length))
  for (const [name, color] of Object.entries(layerColors)) {
    put(0, 'LAYER')
    put(2, name)
    lines.push('70', '0', '62', String(color))
    put(6, 'CONTINUOUS')
  }
  put(0, 'ENDTAB')
  put(0, 'ENDSEC')
}

/** A millionth of a millimeter is finer than any table cuts. */
const number = (value: number): string => {
  const text = value.toFixed(7).replace(/0+$/, '')
  return text.endsWith('.') ? `${text}0` : text === '-0.0' ? '0.0' : text
}
