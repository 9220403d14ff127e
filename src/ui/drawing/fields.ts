import type { ParamSpec } from '../../core/builds/build.ts'
import { startOf } from '../../core/builds/start.ts'
import type { Params } from '../../core/job.ts'
import { resolveLength } from '../../core/reading/parse.ts'
import type { Mm } from '../../core/units.ts'

/** A length that the person typed, with what it came to: how a dimension on the drawing finds its field. */
export interface TypedLength {
  readonly name: string
  readonly label: string
  /** Heading under which it is asked for. */
  readonly group?: string | undefined
  readonly mm: Mm
}

/** All lengths of a job that are asked for now and can be read. */
export function typedLengths(
  specs: readonly ParamSpec[],
  params: Params,
  units: 'in' | 'mm',
): readonly TypedLength[] {
  const found: TypedLength[] = []
  for (const spec of specs) {
    const { name, label, group, type, when } = spec
    const given = params[name] ?? (spec.late ? startOf(spec, units) : undefined)
    if (type !== 'length' || (when && !when(params))) continue
    if (typeof given !== 'number' && typeof given !== 'string') continue
    const mm = resolveLength(given, units)
    if (mm.ok) found.push({ name, label, group, mm: mm.value })
  }
  return found
}
