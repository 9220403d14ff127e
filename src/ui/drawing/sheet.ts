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

/** Path data of straight lines on the screen. */
export const linesOf = (place: Place, lines: readonly (readonly [Point, Point])[]): string =>
  lines.map((line) => pathOf(place, line).slice(0, -1)).join('')

/** Path data of a closed polygon on the screen, to a hundredth of a pixel. */
export const pathOf = (place: Place, polygon: Polygon): string =>
  `M${polygon
    .map((point) =>
      toScreen(place, point)
        .map((value) => +value.toFixed(2))
        .join(' '),
    )
    .join('L')}Z`

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
