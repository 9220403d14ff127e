import type { BuildContext } from '../../../src/core/builds/build.ts'
import { buildOf } from '../../../src/core/builds/index.ts'
import { startParams } from '../../../src/core/builds/start.ts'
import { valuesOf } from '../../../src/core/builds/values.ts'
import type { Frame } from '../../../src/core/frame/frame.ts'
import type { Params } from '../../../src/core/job.ts'
import { builtSizes } from '../../../src/core/parts/built.ts'
import { partsOf } from '../../../src/core/parts/parts.ts'
import type { BuiltSize, Part } from '../../../src/core/plan-shapes.ts'
import { say } from '../../../src/core/reading/show.ts'
import { badAll, good, type Problem, type Result } from '../../../src/core/result.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'

export interface Framed {
  readonly frame: Frame
  readonly parts: readonly Part[]
  readonly sizes: readonly BuiltSize[]
  readonly shop: Shop
}

/** The frame of a build from its starting values with these changes. */
export function tryFrame(kind: string, params: Params, shop: Shop): Result<Framed> {
  const units = shop.reading.kind === 'mm' ? 'mm' : 'in'
  const build = buildOf(kind)
  if (!build) throw new Error(`no build ${kind}`)
  const context: BuildContext = { gap: shop.rootGap, say: (mm) => say(mm, shop.reading) }
  const values = valuesOf(build, { ...startParams(build, units), ...params }, { units, say: context.say })
  if (!values.ok) return badAll(values.problems)
  const frame = build.frame(values.value, context)
  if (!frame.ok) return frame
  const parts = partsOf(frame.value.members, shop)
  return good({ frame: frame.value, parts, sizes: builtSizes(frame.value, parts, shop), shop })
}

export function framed(kind: string, params: Params, shop: Shop): Framed {
  const made = tryFrame(kind, params, shop)
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join(' '))
  return made.value
}

/** The problems of a frame that must not be possible. */
export function problems(kind: string, params: Params, shop: Shop): readonly Problem[] {
  const made = tryFrame(kind, params, shop)
  return made.ok ? [] : made.problems
}

/** A pedestal on two cross bars, with half bars that stop on the one that runs through. */
export const onBars = { bars: 'two, crossing' } as const
export const inches = startShop('in')
export const metric = startShop('mm')
export const tube = (width: string | number, wall: string | number) =>
  ({ kind: 'square-tube', width, wall }) as const
export const partOf = (made: Framed, name: string): Part => {
  const part = made.parts.find((each) => each.name === name)
  if (!part) throw new Error(`no part ${name} among ${made.parts.map((each) => each.name).join(', ')}`)
  return part
}
export const sizeOf = (made: Framed, name: string): BuiltSize => {
  const size = made.sizes.find((each) => each.name === name)
  if (!size) throw new Error(`no size ${name} among ${made.sizes.map((each) => each.name).join(', ')}`)
  return size
}
