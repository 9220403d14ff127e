// What was asked of an uneven polygon frame, found on the steel: how long each outer face is, along the way it must run.
import type { RowValue, Values } from '../../src/core/builds/build.ts'
import type { Frame } from '../../src/core/frame/frame.ts'
import type { Body } from './frame-checks.ts'
import { dot, reach, type Xyz } from './kernel.ts'

interface Asked {
  readonly name: string
  readonly asked: number
  readonly real: number
}

interface Side {
  readonly length: number
  /** Degrees from +x. */
  readonly heading: number
}

const rad = (degrees: number) => (degrees * Math.PI) / 180

/** The sides whose way is known, the inside angles that are known (by corner, from 0), and which way round it goes. */
function known(values: Values) {
  if (values.way === 'corner points') {
    const points = (values.points as readonly RowValue[]).map(
      ({ x, y }) => [x as number, y as number] as const,
    )
    const n = points.length
    const sides = points.map(([x, y], at): Side => {
      const [u, v] = points[(at + 1) % n]!
      return { length: Math.hypot(u - x, v - y), heading: (Math.atan2(v - y, u - x) * 180) / Math.PI }
    })
    const turns = sides.map(({ heading }, at) => {
      const turn = heading - sides[(at + n - 1) % n]!.heading
      return ((((turn + 180) % 360) + 360) % 360) - 180
    })
    const round = Math.sign(turns.reduce((sum, turn) => sum + turn, 0))
    return { sides, corners: new Map(turns.map((turn, at) => [at, 180 - round * turn])), round, n }
  }
  const open = values.way === 'last side open'
  const rows = values[open ? 'sides' : 'allSides'] as readonly RowValue[]
  const corners = new Map<number, number>()
  const sides: Side[] = []
  let heading = 0
  for (const [at, row] of rows.entries()) {
    sides.push({ length: row.side as number, heading })
    if (row.corner === undefined) break
    corners.set(at + 1, row.corner as number)
    heading += 180 - (row.corner as number)
  }
  return { sides, corners, round: 1, n: open ? rows.length + 1 : rows.length }
}

export function askedUneven(values: Values, bodies: readonly Body[], frame: Frame): Asked[] {
  const { sides, corners, round, n } = known(values)
  const found = sides.flatMap(({ length, heading }, at): Asked[] => {
    const id = `frame/side-${at + 1}`
    const { surface } = bodies.find((body) => body.id === id)!
    const gap = frame.members.find((member) => member.id === id)!.gap
    // At each end the gap leaves (gap/2)/cos(miter) of the outer edge, and the miter is half of what 180° leave.
    const ends = [at, (at + 1) % n].map((corner) => corners.get(corner))
    if (gap > 0 && ends.includes(undefined)) return []
    const lost = ends.reduce<number>(
      (sum, corner) => sum + (gap > 0 ? gap / 2 / Math.sin(rad(corner!) / 2) : 0),
      0,
    )
    const along: Xyz = [Math.cos(rad(heading)), Math.sin(rad(heading)), 0]
    const out: Xyz = [round * along[1], -round * along[0], 0]
    const farthest = reach(surface, out)
    const face = surface.points.filter((point) => dot(point, out) > farthest - 1e-6).map((p) => dot(p, along))
    return [
      { name: `outside of ${id}`, asked: length - lost, real: Math.max(...face) - Math.min(...face) },
      { name: `corners of its outer face at ${id}`, asked: 4, real: face.length },
    ]
  })
  return [...found, ...rim(values, bodies)]
}

/** The area of the top: that of the outline moved by t is A + P t + t² Σ cot(K/2) over its inside angles K. */
function rim(values: Values, bodies: readonly Body[]): Asked[] {
  const plate = bodies.find(({ id }) => id === 'top/plate')
  if (!plate) return values.top === 'none' ? [] : [{ name: 'plate', asked: 1, real: 0 }]
  if (values.way !== 'corner points') return []
  const { sides, corners, round } = known(values)
  const points = (values.points as readonly RowValue[]).map(({ x, y }) => [x as number, y as number] as const)
  const twice = points.reduce((sum, [x, y], at) => {
    const [u, v] = points[(at + 1) % points.length]!
    return sum + x * v - u * y
  }, 0)
  const by = (values.topEdgeBy as number | undefined) ?? 0
  const out = values.topEdge === 'overhang' ? by : values.topEdge === 'inset' ? -by : 0
  const around = sides.reduce((sum, { length }) => sum + length, 0)
  const spread = [...corners.values()].reduce((sum, corner) => sum + 1 / Math.tan(rad(corner) / 2), 0)
  const area = (round * twice) / 2 + around * out + spread * out * out
  // Said as a length, so that it is held to the same slack as the others.
  return [
    {
      name: 'side of a square as large as the top',
      asked: Math.sqrt(area),
      real: Math.sqrt(plate.volume / (values.topThickness as number)),
    },
  ]
}
