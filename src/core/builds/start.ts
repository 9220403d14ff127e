import type { Job, ParamGiven, Params } from '../job.ts'
import type { Build, ParamSpec } from './build.ts'

/** The value that a new job starts with. */
export const startOf = (spec: ParamSpec, units: 'in' | 'mm'): ParamGiven => {
  const { start } = spec
  return typeof start === 'object' && !Array.isArray(start) && 'in' in start && 'mm' in start
    ? start[units]
    : (start as ParamGiven)
}

/** The parameters that a new job starts with, as typed in an inch shop or a metric one. */
export const startParams = (build: Build, units: 'in' | 'mm'): Params =>
  Object.fromEntries(
    build.params.filter((spec) => !spec.optional).map((spec) => [spec.name, startOf(spec, units)]),
  )

/** A new job of this build with its starting values, which plan without a problem. */
export const newJob = (build: Build, units: 'in' | 'mm', id: string, name: string = build.title): Job => ({
  id,
  name,
  units,
  build: { kind: build.kind, params: startParams(build, units) },
  quantity: 1,
})
