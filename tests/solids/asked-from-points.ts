// A frame from points on the steel: every member lies evenly about the line through its two points.
import type { RowValue, Values } from '../../src/core/builds/build.ts'
import type { Frame } from '../../src/core/frame/frame.ts'
import type { Body } from './frame-checks.ts'
import { reach, type Xyz } from './kernel.ts'

interface Asked {
  readonly name: string
  readonly asked: number
  readonly real: number
}

const along = (a: Xyz, b: Xyz) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** From each point to the four sides of its members: half of the section each way. */
export function askedFromPoints(values: Values, bodies: readonly Body[], frame: Frame): Asked[] {
  const points = new Map(
    (values.points as readonly RowValue[]).map((row) => [row.name, [row.x, row.y, row.z] as unknown as Xyz]),
  )
  return (values.members as readonly RowValue[]).flatMap((row, at): Asked[] => {
    const { id, pose, section } = frame.members[at]!
    const { surface } = bodies.find((body) => body.id === id)!
    const side = (column: number, sign: number): Xyz => [
      sign * pose[4 * column]!,
      sign * pose[4 * column + 1]!,
      sign * pose[4 * column + 2]!,
    ]
    const sides: readonly (readonly [Xyz, number])[] = [1, -1].flatMap((sign) => [
      [side(1, sign), section.width / 2] as const,
      [side(2, sign), section.height / 2] as const,
    ])
    return [row.from, row.to].flatMap((name) =>
      sides.map(
        ([direction, half]): Asked => ({
          name: `from ${String(name)} to a side of ${id}`,
          asked: half,
          real: reach(surface, direction) - along(points.get(name as string)!, direction),
        }),
      ),
    )
  })
}
