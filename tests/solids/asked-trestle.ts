// What was asked of pairs of legs, found on the steel with a tape along the world's axes.
import type { Values } from '../../src/core/builds/build.ts'
import type { Body } from './frame-checks.ts'
import { reach, type Xyz } from './kernel.ts'

interface Asked {
  readonly name: string
  readonly asked: number
  readonly real: number
}

const axes: readonly Xyz[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]
type Axis = 0 | 1 | 2
const most = (bodies: readonly Body[], axis: Axis) =>
  Math.max(...bodies.map(({ surface }) => reach(surface, axes[axis]!)))
const least = (bodies: readonly Body[], axis: Axis) =>
  -Math.max(
    ...bodies.map(({ surface }) => reach(surface, axes[axis]!.map((part) => -part) as unknown as Xyz)),
  )

/** Outside to outside of the corners at one height. */
function across(bodies: readonly Body[], z: number, axis: Axis): number {
  const at = bodies
    .flatMap(({ surface }) => surface.points)
    .filter((point) => Math.abs(point[2] - z) < 1e-6)
    .map((point) => point[axis])
  return Math.max(...at) - Math.min(...at)
}

export function askedTrestle(values: Values, bodies: readonly Body[]): Asked[] {
  const asked = (name: string) => values[name] as number
  const setting = values.levelers === true ? asked('levelerSetting') : 0
  const cap = values.caps === true ? asked('capThickness') : 0
  const pairs = Array.from({ length: Number(values.pairs) }, (_, at) => at + 1)
  const within = (pair: number, what: string) =>
    bodies.filter(({ id }) => id.startsWith(`pair-${pair}/${what}`))
  const ties = bodies.filter(({ id }) => id.endsWith('/tie'))
  return [
    { name: 'overall height', asked: asked('height'), real: most(bodies, 2) },
    ...(pairs.length === 2
      ? [{ name: 'over both pairs', asked: asked('length'), real: most(bodies, 1) - least(bodies, 1) }]
      : []),
    ...pairs.flatMap((pair): Asked[] => {
      const legs = within(pair, 'leg-')
      const [bar] = within(pair, 'bar')
      const top = most(legs, 2)
      return [
        { name: `lower ends of pair ${pair}`, asked: setting + cap, real: least(legs, 2) },
        { name: `feet of pair ${pair}`, asked: asked('feet'), real: across(legs, setting + cap, 0) },
        // Where the root gap ends them lower, their upper ends stand as much closer or wider as they lean.
        ...(Math.abs(top - least([bar!], 2)) < 1e-6
          ? [{ name: `upper ends of pair ${pair}`, asked: asked('upper'), real: across(legs, top, 0) }]
          : []),
        { name: `bar of pair ${pair}`, asked: asked('barLength'), real: most([bar!], 0) - least([bar!], 0) },
        { name: `legs of pair ${pair}`, asked: values.style === 'X legs' ? 3 : 2, real: legs.length },
      ]
    }),
    ...ties.map(
      (tie): Asked => ({ name: `upper face of ${tie.id}`, asked: asked('tieHeight'), real: most([tie], 2) }),
    ),
    {
      name: 'ties',
      asked: values.style === 'A legs' && values.tie === 'yes' ? pairs.length : 0,
      real: ties.length,
    },
  ]
}
