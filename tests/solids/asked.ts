// What was asked for against the solids: each size found on the steel in the way a tape would find it.
import type { RowValue, Values } from '../../src/core/builds/build.ts'
import type { Frame } from '../../src/core/frame/frame.ts'
import { askedFourLeg } from './asked-four-leg.ts'
import { askedFromPoints } from './asked-from-points.ts'
import { askedLooseTop } from './asked-loose-top.ts'
import { askedRack } from './asked-rack.ts'
import { askedRect } from './asked-rect-frame.ts'
import { type Asked, edge, pedestal, ring } from './asked-ring.ts'
import { askedTrestle } from './asked-trestle.ts'
import { askedUneven } from './asked-uneven-frame.ts'
import { type Body, edgesOf, lengthSlack } from './frame-checks.ts'
import { extent, surfaceOf } from './kernel.ts'
import { ownSolid } from './solid.ts'

type Measured = (values: Values, bodies: readonly Body[], frame: Frame) => readonly Asked[]

/** The stated length of every row, on its first piece. */
function rows(values: Values, frame: Frame): Asked[] {
  return (values.rows as readonly RowValue[]).map((row, at): Asked => {
    const member = frame.members.find(({ id }) => id === `row-${at + 1}/piece-1`)!
    const edges = edgesOf(member)
    const real = {
      'long point': () => extent(surfaceOf(ownSolid(member, 'box')), [1, 0, 0]),
      'short point': () => Math.min(...edges),
      'center line': () => edges.reduce((sum, edge) => sum + edge, 0) / edges.length,
    }[values.lengthIs as string]
    if (!real) throw new Error(`no way to measure ${String(values.lengthIs)}`)
    return { name: `${String(values.lengthIs)} of ${member.id}`, asked: row.length as number, real: real() }
  })
}

const measures: Readonly<Record<string, Measured>> = {
  'polygon-frame': (values, bodies, frame) => [...ring(values, bodies, frame), ...edge(values, bodies)],
  pedestal: (values, bodies, frame) => [
    ...ring(values, bodies, frame),
    ...edge(values, bodies),
    ...pedestal(values, bodies, frame),
  ],
  'cut-list': (values, _, frame) => rows(values, frame),
  'uneven-frame': askedUneven,
  'rect-frame': askedRect,
  'four-leg': askedFourLeg,
  rack: askedRack,
  trestle: askedTrestle,
  'loose-top': askedLooseTop,
  'from-points': askedFromPoints,
}

/** Kinds of build whose asked sizes are found on the solids. */
export const measuredKinds: readonly string[] = Object.keys(measures)

export function askedFaults(kind: string, values: Values, frame: Frame, bodies: readonly Body[]): string[] {
  return (measures[kind]?.(values, bodies, frame) ?? []).flatMap(({ name, asked, real }) =>
    Math.abs(asked - real) <= lengthSlack
      ? []
      : [`${name} was asked as ${asked.toFixed(6)}, the steel measures ${real.toFixed(6)}`],
  )
}
