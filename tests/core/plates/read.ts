// Drawings of plates read back: DXF by two readers that know nothing of each other, SVG by its paths.
import { parseString } from 'dxf'
import DxfParser from 'dxf-parser'

export interface Read {
  /** As the file says: 1 inches, 4 millimeters. */
  readonly units: unknown
  /** Closed outlines by layer, each its corners with the bulge to the next. */
  readonly outlines: readonly {
    readonly layer: string
    readonly corners: readonly (readonly [number, number, number])[]
  }[]
  readonly circles: readonly {
    readonly layer: string
    readonly x: number
    readonly y: number
    readonly radius: number
  }[]
  readonly lines: readonly (readonly [number, number, number, number])[]
}

export function readOne(text: string): Read {
  const made = new DxfParser().parseSync(text)
  if (!made) throw new Error('the first reader reads nothing')
  // biome-ignore lint/suspicious/noExplicitAny: the reader's own types name no fields of an entity
  const entities = made.entities as any[]
  return {
    units: made.header.$INSUNITS,
    outlines: entities
      .filter(({ type, shape }) => type === 'POLYLINE' && shape === true)
      .map(({ layer, vertices }) => ({
        layer,
        corners: vertices.map(({ x, y, bulge }: Record<string, number>) => [x, y, bulge ?? 0] as const),
      })),
    circles: entities
      .filter(({ type }) => type === 'CIRCLE')
      .map(({ layer, center, radius }) => ({ layer, x: center.x, y: center.y, radius })),
    lines: entities
      .filter(({ type }) => type === 'LINE')
      .map(({ vertices: [a, b] }) => [a.x, a.y, b.x, b.y] as const),
  }
}

export function readOther(text: string): Read {
  const { header, entities } = parseString(text)
  return {
    units: header.insUnits,
    outlines: entities
      .filter(({ type, closed }) => type === 'POLYLINE' && closed === true)
      .map(({ layer, vertices = [] }) => ({
        layer,
        corners: vertices.map(({ x, y, bulge }) => [x, y, bulge ?? 0] as const),
      })),
    circles: entities
      .filter(({ type }) => type === 'CIRCLE')
      .map(({ layer, x = Number.NaN, y = Number.NaN, r = Number.NaN }) => ({ layer, x, y, radius: r })),
    lines: entities
      .filter(({ type }) => type === 'LINE')
      .map(({ start, end }) => [start!.x, start!.y, end!.x, end!.y] as const),
  }
}

/** Area of a closed outline, the round caps of bulges with it: a bulge is the tangent of a quarter of the arc. */
export function areaOf(corners: readonly (readonly [number, number, number])[]): number {
  return Math.abs(
    corners.reduce((sum, [x, y, bulge], at) => {
      const [u, v] = corners[(at + 1) % corners.length]!
      const arc = 4 * Math.atan(bulge)
      const chord = Math.hypot(u - x, v - y)
      const radius = arc === 0 ? 0 : chord / 2 / Math.sin(arc / 2)
      return sum + (x * v - u * y) / 2 + (radius ** 2 / 2) * (arc - Math.sin(arc))
    }, 0),
  )
}

/** The points of a path of straight lines. */
export const pathPoints = (d: string): (readonly [number, number])[] =>
  [...d.matchAll(/[ML]?(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const)
