// What a four-leg frame was asked for, found on its solids as with a tape.

import type { Values } from '../../src/core/builds/build.ts'
import type { Body } from './frame-checks.ts'
import { extent, reach, type Surface, type Xyz } from './kernel.ts'

interface Asked {
  readonly name: string
  readonly asked: number
  readonly real: number
}

const [x, y, up]: readonly [Xyz, Xyz, Xyz] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

const together = (bodies: readonly Body[]): Surface => ({
  points: bodies.flatMap(({ surface }) => surface.points),
  triangles: [],
})

/** The corners of these solids that lie at one height. */
const atHeight = (bodies: readonly Body[], z: number): Surface => ({
  points: together(bodies).points.filter((point) => Math.abs(point[2] - z) < 1e-6),
  triangles: [],
})

/** Length, width and height of the steel, the spread and lean of the feet, and where the stretchers lie. */
export function askedFourLeg(values: Values, bodies: readonly Body[]): Asked[] {
  const called = (start: string) => bodies.filter(({ id }) => id.startsWith(start))
  const asked = (name: string) => values[name] as number
  const legs = called('legs/leg-')
  const frame = called('top/side-')
  const highest = reach(together(bodies), up)
  const plate = bodies.find(({ id }) => id === 'top/plate')
  // A rail frame is measured at the upper ends of its legs, where they stand closest.
  const legTop = reach(together(legs), up)
  const top = frame.length > 0 ? together(frame) : atHeight(legs, legTop)
  const low = Math.min(...legs.map(({ surface }) => -reach(surface, [0, 0, -1])))
  const feet = atHeight(legs, low)
  const setting = values.levelers === true ? asked('levelerSetting') : 0
  const cap = values.caps === true ? asked('capThickness') : 0
  const stretchers = called('stretchers/').filter(({ id }) => id !== 'stretchers/shelf')
  const shelf = bodies.find(({ id }) => id === 'stretchers/shelf')
  return [
    { name: 'length', asked: asked('length'), real: extent(top, x) },
    { name: 'width', asked: asked('width'), real: extent(top, y) },
    { name: 'overall height', asked: asked('height'), real: highest },
    { name: 'upper ends of the feet', asked: setting + cap, real: low },
    ...(plate ? [{ name: 'top', asked: asked('topThickness'), real: extent(plate.surface, up) }] : []),
    ...(values.splay === 'feet'
      ? [
          { name: 'feet along the length', asked: asked('feetLength'), real: extent(feet, x) },
          { name: 'feet along the width', asked: asked('feetWidth'), real: extent(feet, y) },
        ]
      : []),
    ...(values.splay === 'angles' ? leans(values, legs) : []),
    ...stretchers.map(({ id, surface }) => ({
      name: `upper face of ${id}`,
      asked: asked('stretcherHeight'),
      real: reach(surface, up),
    })),
    ...(shelf
      ? [
          {
            name: 'underside of the shelf',
            asked: asked('stretcherHeight'),
            real: -reach(shelf.surface, [0, 0, -1]),
          },
          { name: 'shelf', asked: asked('shelfThickness'), real: extent(shelf.surface, up) },
        ]
      : []),
  ]
}

/** How far each leg goes outward on its way down, against the tangent of the lean over its height. */
const leans = (values: Values, legs: readonly Body[]): Asked[] =>
  legs.flatMap(({ id, surface }): Asked[] => {
    const top = reach(surface, up)
    const low = -reach(surface, [0, 0, -1])
    const across = (z: number, axis: 0 | 1) => {
      const along = surface.points
        .filter((point) => Math.abs(point[2] - z) < 1e-6)
        .map((point) => point[axis])
      return (Math.max(...along) + Math.min(...along)) / 2
    }
    return (['leanLength', 'leanWidth'] as const).map((name, axis) => {
      const moved = Math.abs(across(low, axis as 0 | 1)) - Math.abs(across(top, axis as 0 | 1))
      const lean = ((values[name] as number) * Math.PI) / 180
      return { name: `${name} of ${id}`, asked: (top - low) * Math.tan(lean), real: moved }
    })
  })
