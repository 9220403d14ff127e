// What was asked of a rectangular frame, found on the steel with a tape along the world's axes.
import type { RowValue, Values } from '../../src/core/builds/build.ts'
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
const most = ({ surface }: Body, axis: 0 | 1 | 2) => reach(surface, axes[axis]!)
const least = ({ surface }: Body, axis: 0 | 1 | 2) =>
  -reach(surface, axes[axis]!.map((part) => -part) as unknown as Xyz)

export function askedRect(values: Values, bodies: readonly Body[]): Asked[] {
  const [front, right, back, left] = [1, 2, 3, 4].map(
    (at) => bodies.find(({ id }) => id === `frame/side-${at}`)!,
  )
  const inside = values.sizeIs === 'clear inside'
  const between = (low: Body, high: Body, axis: 0 | 1) =>
    inside ? least(high, axis) - most(low, axis) : most(high, axis) - least(low, axis)
  const across = values.barRun === 'across'
  const infillAcross = values.infillRun === 'across'
  return [
    { name: 'length', asked: values.length as number, real: between(left!, right!, 0) },
    { name: 'width', asked: values.width as number, real: between(front!, back!, 1) },
    ...row('bar', 'bars/', values, bodies, across ? left! : front!, across ? 0 : 1),
    ...row('infill', 'infill/', values, bodies, infillAcross ? left! : front!, infillAcross ? 0 : 1),
    ...top(values, bodies, [left!, front!], [right!, back!]),
  ]
}

/** Middles where they were typed, and every bar at the height that was asked. */
function row(
  of: 'bar' | 'infill',
  start: string,
  values: Values,
  bodies: readonly Body[],
  from: Body,
  axis: 0 | 1,
): Asked[] {
  const how = values[of === 'bar' ? 'bars' : 'infill']
  const own = bodies.filter(({ id }) => id.startsWith(start))
  if (how === 'none') return [{ name: `${of}s`, asked: 0, real: own.length }]
  const heights = own.map((body): Asked => {
    const [under, over] = [least(body, 2), most(from, 2) - most(body, 2)]
    const real = { 'on top': over, underneath: under, 'in the middle': over - under }[
      values.barsLie as string
    ]!
    return { name: `${String(values.barsLie)}, ${body.id}`, asked: 0, real }
  })
  const middles = [...new Set(own.map((body) => ((most(body, axis) + least(body, axis)) / 2).toFixed(6)))]
    .map((at) => Number(at) - least(from, axis))
    .sort((a, b) => a - b)
  if (how === 'evenly') return heights
  const typed = (values[`${of}Centers`] as readonly RowValue[])
    .map(({ at }) => at as number)
    .sort((a, b) => a - b)
  return [
    ...heights,
    { name: `how many ${of}s`, asked: typed.length, real: middles.length },
    ...typed.map(
      (at, k): Asked => ({ name: `middle ${k + 1} of ${of}s`, asked: at, real: middles[k] ?? -1 }),
    ),
  ]
}

function top(values: Values, bodies: readonly Body[], low: readonly Body[], high: readonly Body[]): Asked[] {
  const plate = bodies.find(({ id }) => id === 'top/plate')
  if (!plate) return values.top === 'none' ? [] : [{ name: 'plate', asked: 1, real: 0 }]
  const by = (values.topEdgeBy as number | undefined) ?? 0
  const out = values.topEdge === 'overhang' ? by : values.topEdge === 'inset' ? -by : 0
  return ([0, 1] as const).flatMap((axis): Asked[] => [
    {
      name: `low edge of the top along ${axis}`,
      asked: out,
      real: least(low[axis]!, axis) - least(plate, axis),
    },
    {
      name: `high edge of the top along ${axis}`,
      asked: out,
      real: most(plate, axis) - most(high[axis]!, axis),
    },
  ])
}
