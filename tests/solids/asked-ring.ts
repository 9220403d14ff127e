// What a polygon frame and a pedestal were asked for, found on the steel as with a tape.
import type { Values } from '../../src/core/builds/build.ts'
import type { Frame } from '../../src/core/frame/frame.ts'
import type { Body } from './frame-checks.ts'
import { extent, reach, type Xyz } from './kernel.ts'

export interface Asked {
  readonly name: string
  readonly asked: number
  readonly real: number
}

const called = (bodies: readonly Body[], start: string) => bodies.filter(({ id }) => id.startsWith(start))
const toward = (degrees: number): Xyz => [
  Math.cos((degrees * Math.PI) / 180),
  Math.sin((degrees * Math.PI) / 180),
  0,
]
const away = ([x, y, z]: Xyz): Xyz => [-x, -y, -z]
const up: Xyz = [0, 0, 1]

/**
 * The size of a ring that was asked, at each of its sides; the ring's middle is the origin. A root gap leaves each side
 * gap/2 short of the miter plane at both ends: its corners stand back by gap/2/cos(miter) along it.
 */
export function ring(values: Values, bodies: readonly Body[], frame: Frame): Asked[] {
  const n = values.sides as number
  const size = values.size as number
  const miter = Math.PI / n
  const sides = called(bodies, 'top/side-')
  const name = values.sizeKind as string
  return sides.flatMap(({ surface, id }, k): Asked[] => {
    // Side 1 looks to the front, the others follow counterclockwise.
    const out = toward(-90 + (360 * k) / n)
    const along = toward((360 * k) / n)
    const corner = toward(-90 + (360 * (k + 0.5)) / n)
    const real = {
      side: () => extent(surface, along),
      'across flats': () => 2 * reach(surface, out),
      'across corners': () => 2 * reach(surface, corner),
      'clear inside': () => -2 * reach(surface, away(out)),
    }[name]
    if (!real) throw new Error(`no way to measure ${name}`)
    const gap = frame.members.find((member) => member.id === id)!.gap
    const open = { side: gap / Math.cos(miter), 'across corners': gap * Math.tan(miter) }[name] ?? 0
    return [{ name: `${name} at ${id}`, asked: size - open, real: real() }]
  })
}

/** The edge of what lies on a ring, beside its side. */
export function edge(values: Values, bodies: readonly Body[]): Asked[] {
  const plate = bodies.find(({ id }) => id === 'top/plate')
  if (!plate) return values.top === 'none' ? [] : [{ name: 'plate', asked: 1, real: 0 }]
  const n = values.sides as number
  const by = (values.topEdgeBy as number | undefined) ?? 0
  const out = values.topEdge === 'overhang' ? by : values.topEdge === 'inset' ? -by : 0
  return [
    ...called(bodies, 'top/side-').map(({ surface, id }, k): Asked => {
      const direction = toward(-90 + (360 * k) / n)
      return {
        name: `edge of the plate past ${id}`,
        asked: out,
        real: reach(plate.surface, direction) - reach(surface, direction),
      }
    }),
    { name: 'thickness', asked: values.topThickness as number, real: extent(plate.surface, up) },
  ]
}

/** Degrees from the right at which the first arm, or the first bar of a spider, was asked to point. */
function pointing(values: Values, point: string, angle: string): number {
  const corner = -90 + 180 / (values.sides as number)
  return (
    { 'to the right': 0, 'to a side': -90, 'to a corner': corner, 'at an angle': Number(values[angle]) }[
      values[point] as string
    ] ?? 0
  )
}

/** Bars of a spider: each lies evenly about its direction and reaches to the post's top and no higher. */
function spider(values: Values, bodies: readonly Body[]): Asked[] {
  const bars = called(bodies, 'base/bar-')
  if (values.bars !== 'spider') return []
  const count = values.spiderBars as number
  const post = bodies.find(({ id }) => id === 'base/post')!
  return [
    { name: 'bars of the spider', asked: count, real: bars.length },
    ...bars.flatMap(({ id, surface }, k): Asked[] => {
      const direction = pointing(values, 'spiderPoint', 'spiderAngle') + (360 * k) / count
      return [
        {
          name: `${id} lies evenly about its direction`,
          asked: 0,
          real: reach(surface, toward(direction + 90)) - reach(surface, toward(direction - 90)),
        },
        { name: `upper face of ${id}`, asked: reach(post.surface, up), real: reach(surface, up) },
      ]
    }),
  ]
}

function basePlate(
  values: Values,
  bodies: readonly Body[],
  frame: Frame,
  highest: number,
  lowest: number,
): Asked[] {
  const plate = bodies.find(({ id }) => id === 'base/plate')!
  const post = bodies.find(({ id }) => id === 'base/post')!
  const setting = values.levelers === true ? (values.levelerSetting as number) : 0
  // A square plate is turned with the post, so it is measured by its area; a round one is drawn with 96 flats.
  const size = values.baseSize as number
  const round = 48 * Math.sin(Math.PI / 48) * (size / 2) ** 2
  const holes = values.levelers === true ? 4 : 0
  const thick = values.baseThickness as number
  const { gap } = frame.members.find(({ id }) => id === 'base/post')!
  return [
    { name: 'overall height', asked: values.height as number, real: highest },
    { name: 'setting of the levelers', asked: setting, real: lowest },
    {
      name: 'foot of the post, a root gap up',
      asked: setting + thick + gap,
      real: -reach(post.surface, away(up)),
    },
    { name: 'thickness of the base', asked: thick, real: extent(plate.surface, up) },
    ...(holes === 0
      ? [
          {
            name: 'base plate across, by its volume',
            asked: 1,
            real: plate.volume / thick / (values.baseShape === 'square' ? size ** 2 : round),
          },
        ]
      : []),
  ]
}

export function pedestal(values: Values, bodies: readonly Body[], frame: Frame): Asked[] {
  const highest = Math.max(...bodies.map(({ surface }) => reach(surface, up)))
  const lowest = Math.min(...bodies.map(({ surface }) => -reach(surface, away(up))))
  if (values.base === 'base plate')
    return [...basePlate(values, bodies, frame, highest, lowest), ...spider(values, bodies)]
  const arms = Number(values.arms)
  const armBodies = called(bodies, 'base/arm-')
  const armTop = Math.max(...armBodies.map(({ surface }) => reach(surface, up)))
  const armUnder = Math.min(...armBodies.map(({ surface }) => -reach(surface, away(up))))
  const setting = values.levelers === true ? (values.levelerSetting as number) : 0
  const feet = called(bodies, 'base/foot-')
  // Chords of a round foot of the largest size lie this much inside its circle at most.
  const across = frame.members.find(({ id }) => id === 'base/foot-1')!.section
  const chord = across.kind === 'round-tube' ? (across.width / 2) * (1 - Math.cos(Math.PI / 256)) : 0
  const snug = (asked: number, real: number) => (Math.abs(asked - real) <= chord ? asked : real)
  return [
    { name: 'overall height', asked: values.height as number, real: highest },
    { name: 'setting of the levelers', asked: setting, real: lowest },
    { name: 'feet', asked: arms, real: feet.length },
    ...feet.map(({ id, surface }, k): Asked => {
      const asked = (values.spread as number) / 2
      const direction = pointing(values, 'armsPoint', 'armsAngle') + (360 * k) / arms
      return { name: `half the spread at ${id}`, asked, real: snug(asked, reach(surface, toward(direction))) }
    }),
    values.footGives === 'foot height'
      ? {
          name: 'foot, overall',
          asked: values.footHeight as number,
          real: snug(values.footHeight as number, armTop - lowest),
        }
      : {
          name: 'clear under the arms',
          asked: values.clearUnder as number,
          real: snug(values.clearUnder as number, armUnder),
        },
    ...spider(values, bodies),
  ]
}
