import type { Member, Plate } from '../frame/frame.ts'
import type { Polygon } from '../geometry/polygon.ts'
import { bad, good, type Result } from '../result.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Splay } from './four-leg-splay.ts'
import { rectangle } from './four-leg-top.ts'

/** Half the distance over the outside of the stretchers: those along the width, and those along the length, if any. */
export interface ShelfRests {
  readonly z: Mm
  readonly halfLength: Mm
  readonly halfWidth?: Mm
  readonly on: readonly Member[]
}

/**
 * A plate on the stretchers: all around with its corners cut out at the legs, on an H between the front and the back
 * legs. It stays clear of the legs, which are nearest at its upper face.
 */
export function shelfOf(
  values: Values,
  { say }: BuildContext,
  splay: Splay,
  { z, halfLength, halfWidth, on }: ShelfRests,
  most: Mm,
): Result<Plate> {
  const thickness = values.shelfThickness as Mm
  if (!(thickness > 0) || z + thickness > most)
    return bad(
      'shelf-thickness',
      `The shelf was given as ${say(thickness)} thick; it must be more than 0 and no more than ${say(most - z)}, ` +
        'the room between the stretchers and what is above.',
      'build.params.shelfThickness',
    )
  const clear = values.shelfClear as Mm
  const [x, y] = splay.axis(z + thickness)
  const inner = [x - splay.out[0] - clear, y - splay.out[1] - clear] as const
  if (inner[0] <= 0 || inner[1] <= 0)
    return bad(
      'shelf-clear',
      `${say(clear)} clear of the legs leaves nothing of the shelf; it must be less than ${say(Math.min(...inner) + clear)}.`,
      'build.params.shelfClear',
    )
  return good({
    id: 'stretchers/shelf',
    name: 'Shelf',
    polygon:
      halfWidth === undefined ? rectangle(halfLength, inner[1]) : cutOut([halfLength, halfWidth], inner),
    holes: [],
    thickness,
    pose: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, z, 1],
    on: on.map(({ id }) => id),
  })
}

/** A rectangle with its four corners cut out down to `inner`. */
const cutOut = ([x, y]: readonly [Mm, Mm], [u, v]: readonly [Mm, Mm]): Polygon => [
  [-u, -y],
  [u, -y],
  [u, -v],
  [x, -v],
  [x, v],
  [u, v],
  [u, y],
  [-u, y],
  [-u, v],
  [-x, v],
  [-x, -v],
  [-u, -v],
]
