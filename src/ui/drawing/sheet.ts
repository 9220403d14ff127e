import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import type { Extent } from './view.ts'

/** Where millimeters of a view lie on the screen: px per mm, and the screen place of the view's (0, 0). */
export interface Place {
  readonly scale: number
  readonly x: number
  readonly y: number
}

export const toScreen = (place: Place, [x, y]: Point): Point => [
  place.x + x * place.scale,
  place.y - y * place.scale,
]

/** To a hundredth of a pixel. */
const fine = (px: number) => Math.round(px * 100) / 100

const across = (place: Place, point: Point): number => fine(place.x + point[0] * place.scale)
const down = (place: Place, point: Point): number => fine(place.y - point[1] * place.scale)

/**
 * Path data of straight lines on the screen. A frame of 200 members has thousands of them, and all move while one of its
 * sizes is dragged: most are level or upright, and said shorter.
 */
export function linesOf(place: Place, lines: readonly (readonly [Point, Point])[]): string {
  let path = ''
  for (const line of lines) {
    const x = across(place, line[0])
    const y = down(place, line[0])
    const toX = across(place, line[1])
    const toY = down(place, line[1])
    path += `M${x} ${y}`
    path += toY === y ? `H${toX}` : toX === x ? `V${toY}` : `L${toX} ${toY}`
  }
  return path
}

/** Path data of a closed polygon on the screen. */
export const pathOf = (place: Place, polygon: Polygon): string =>
  `M${polygon.map((point) => `${across(place, point)} ${down(place, point)}`).join('L')}Z`

/** Puts an extent in the middle of a box on the screen, as large as it fits. */
export function fitIn(extent: Extent, box: { x: number; y: number; width: number; height: number }): Place {
  const wide = Math.max(extent.right - extent.left, 1e-3)
  const high = Math.max(extent.top - extent.bottom, 1e-3)
  const scale = Math.min(box.width / wide, box.height / high)
  return {
    scale,
    x: box.x + box.width / 2 - ((extent.left + extent.right) / 2) * scale,
    y: box.y + box.height / 2 + ((extent.bottom + extent.top) / 2) * scale,
  }
}
