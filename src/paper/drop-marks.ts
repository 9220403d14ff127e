import { dropSign, rackMarks } from '../core/facts/rack-mark.ts'
import type { Plan } from '../core/plan-shapes.ts'

/** What is painted on the drop of each stick, by the stick: the Saw station and the rack say the same. */
export function dropMarks({ nest }: Plan): ReadonlyMap<string, string> {
  if (!nest) return new Map()
  const sticks = nest.sections.flatMap(({ sticks: all }) => all.map(({ id }) => id))
  return rackMarks(sticks.map((id) => ({ id, sign: dropSign(nest.id, id) })))
}
