// What was asked of a frame round a loose top, found on the steel: the room for the top, and what carries it.
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
const most = ({ surface }: Body, axis: Axis) => reach(surface, axes[axis]!)
const least = ({ surface }: Body, axis: Axis) =>
  -reach(surface, axes[axis]!.map((part) => -part) as unknown as Xyz)

export function askedLooseTop(values: Values, bodies: readonly Body[]): Asked[] {
  const asked = (name: string) => values[name] as number
  const [front, right, back, left] = [1, 2, 3, 4].map(
    (at) => bodies.find(({ id }) => id === `frame/side-${at}`)!,
  )
  const ofTop = values.sizeIs === 'top'
  const room = (low: Body, high: Body, axis: 0 | 1) =>
    ofTop ? least(high, axis) - most(low, axis) - 2 * asked('edgeGap') : most(high, axis) - least(low, axis)
  const tabs = bodies.filter(({ id }) => id.startsWith('tabs/'))
  const bars = bodies.filter(({ id }) => id.startsWith('bars/'))
  const upper = most(front!, 2) + asked('proud') - asked('topThickness')
  const inward = (tab: Body): number => {
    const [, side] = /side-(\d)/.exec(tab.id)!
    return {
      1: most(tab, 1) - most(front!, 1),
      2: least(right!, 0) - least(tab, 0),
      3: least(back!, 1) - least(tab, 1),
      4: most(tab, 0) - most(left!, 0),
    }[Number(side)]!
  }
  return [
    { name: 'length', asked: asked('length'), real: room(left!, right!, 0) },
    { name: 'width', asked: asked('width'), real: room(front!, back!, 1) },
    { name: 'tabs', asked: 2 * (asked('tabsLong') + asked('tabsShort')), real: tabs.length },
    { name: 'bars', asked: asked('barCount'), real: bars.length },
    ...[...tabs, ...bars].map((each) => ({
      name: `upper face of ${each.id}`,
      asked: upper,
      real: most(each, 2),
    })),
    ...tabs.map((tab) => ({ name: `reach of ${tab.id}`, asked: asked('tabReach'), real: inward(tab) })),
  ]
}
