import type { BuildContext } from './builds/build.ts'
import { buildOf, builds } from './builds/index.ts'
import { valuesOf } from './builds/values.ts'
import type { Frame } from './frame/frame.ts'
import type { Job } from './job.ts'
import { builtSizes } from './parts/built.ts'
import { partsOf } from './parts/parts.ts'
import { platesOf } from './parts/plates.ts'
import type { Plan } from './plan-shapes.ts'
import { say, unitOf } from './reading/show.ts'
import { bad, good, type Result } from './result.ts'
import type { Shop } from './shop.ts'
import type { Mm } from './units.ts'

/** Most copies of one order; more is a slip of the keyboard. */
const mostCopies = 1000

/** What a drawing shows of a job: its frame, its parts and plates with their marks, its sizes. */
export type Draft = Pick<Plan, 'name' | 'frame' | 'parts' | 'plates' | 'sizes'>

/**
 * A job as far as it is drawn, as it is asked for: what a dimension that is being dragged needs at every picture of the
 * screen. Fails as the plan does.
 */
export function draftOf(job: Job, shop: Shop): Result<Draft> {
  const framed = frameOf(job, shop)
  if (!framed.ok) return framed
  const frame = framed.value
  const parts = partsOf(frame.members, shop)
  return good({
    name: job.name,
    frame,
    parts,
    plates: platesOf(frame, shop),
    sizes: builtSizes(frame, parts, shop),
  })
}

/** The frame of a job, or every problem with its parameters. */
export const frameOf = (job: Job, shop: Shop): Result<Frame> => enlargedFrame(job, shop, {})

/** The frame of a job with these parameters larger by so many mm. */
export function enlargedFrame(job: Job, shop: Shop, more: Readonly<Record<string, Mm>>): Result<Frame> {
  const build = buildOf(job.build.kind)
  if (!build)
    return bad(
      'unknown-build',
      `“${job.build.kind}” is no build known here; known are ${builds.map(({ kind }) => kind).join(', ')}.`,
      'build.kind',
    )
  if (!Number.isInteger(job.quantity) || job.quantity < 1 || job.quantity > mostCopies)
    return bad(
      'quantity',
      `The quantity was given as ${job.quantity}; it must be a whole number from 1 to ${mostCopies}.`,
      'quantity',
    )
  const context: BuildContext = { gap: shop.rootGap, say: (mm) => say(mm, shop.reading) }
  const values = valuesOf(build, job.build.params, {
    units: job.units ?? unitOf(shop.reading),
    say: context.say,
  })
  if (!values.ok) return values
  const larger = Object.entries(more).map(([name, mm]) => [name, (values.value[name] as Mm) + mm])
  return build.frame({ ...values.value, ...Object.fromEntries(larger) }, context)
}
