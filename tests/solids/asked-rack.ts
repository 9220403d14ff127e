// What was asked of a rack, found on the steel with a tape along the world's axes.
import type { RowValue, Values } from '../../src/core/builds/build.ts'
import type { Frame } from '../../src/core/frame/frame.ts'
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
const most = (bodies: readonly Body[], axis: 0 | 1 | 2) =>
  Math.max(...bodies.map(({ surface }) => reach(surface, axes[axis]!)))
const least = (bodies: readonly Body[], axis: 0 | 1 | 2) =>
  -Math.max(
    ...bodies.map(({ surface }) => reach(surface, axes[axis]!.map((part) => -part) as unknown as Xyz)),
  )

/** Outside of the uprights, faces of the rails at the heights that were asked, braces from tier to tier. */
export function askedRack(values: Values, bodies: readonly Body[], frame: Frame): Asked[] {
  const starting = (start: string) => bodies.filter(({ id }) => id.startsWith(start))
  const uprights = starting('uprights/')
  const asked = (name: string) => values[name] as number
  const tiers =
    values.tiersBy === 'heights'
      ? (values.heights as readonly RowValue[]).map(({ at }) => at as number).sort((a, b) => a - b)
      : Array.from(
          { length: asked('tierCount') },
          (_, k) => asked('lowest') + (k * (asked('highest') - asked('lowest'))) / (asked('tierCount') - 1),
        )
  const rails = (tier: number) => starting(`tier-${tier + 1}/`).filter(({ id }) => !id.endsWith('shelf'))
  const shelf = (tier: number) => bodies.filter(({ id }) => id === `tier-${tier + 1}/shelf`)
  const thick = values.shelves === 'sheet' ? asked('shelfThickness') : 0
  const gap = frame.members[0]!.gap
  return [
    { name: 'length', asked: asked('length'), real: most(uprights, 0) - least(uprights, 0) },
    { name: 'depth', asked: asked('depth'), real: most(uprights, 1) - least(uprights, 1) },
    { name: 'height of the uprights', asked: asked('height'), real: most(uprights, 2) },
    { name: 'uprights', asked: 2 * (asked('bays') + 1), real: uprights.length },
    ...tiers.flatMap((z, tier): Asked[] => [
      { name: `upper face of tier ${tier + 1}`, asked: z, real: most(rails(tier), 2) },
      { name: `rails of tier ${tier + 1}`, asked: 3 * asked('bays') + 1, real: rails(tier).length },
      ...(thick > 0
        ? [
            { name: `underside of shelf ${tier + 1}`, asked: z, real: least(shelf(tier), 2) },
            {
              name: `length of shelf ${tier + 1}`,
              asked: asked('length'),
              real: most(shelf(tier), 0) - least(shelf(tier), 0),
            },
          ]
        : []),
    ]),
    // A root gap turns the corners of a brace away from the tiers, so they touch them only without one.
    ...(gap > 0 ? [] : starting('brace-')).flatMap((brace): Asked[] => {
      const tier = Number(brace.id.slice(6, brace.id.indexOf('/'))) - 1
      return [
        {
          name: `${brace.id} stands on tier ${tier + 1}`,
          asked: tiers[tier]! + thick,
          real: least([brace], 2),
        },
        {
          name: `${brace.id} reaches tier ${tier + 2}`,
          asked: least(rails(tier + 1), 2),
          real: most([brace], 2),
        },
      ]
    }),
  ]
}
