import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, RowValue, Values } from './build.ts'
import { laid } from './top.ts'

/** The rails as they lie: on edge. */
export const railOf = (values: Values): Section => laid(values.railSection as Section, 'on edge')

/** What lies on a tier, mm. */
export const shelfOn = (values: Values): Mm =>
  values.shelves === 'sheet' ? (values.shelfThickness as Mm) : 0

/** Upper faces of the tiers' rails, from the lowest, or what is impossible about them. `low`: upper face of the caps. */
export function tiersOf(values: Values, { say }: BuildContext, low: Mm): Result<readonly Mm[]> {
  const rail = railOf(values)
  const typed = values.tiersBy === 'heights'
  if (values.shelves === 'sheet' && !(shelfOn(values) > 0))
    return bad(
      'thickness',
      `The shelves were given as ${say(shelfOn(values))} thick; it must be more than 0.`,
      'build.params.shelfThickness',
    )
  const heights = typed
    ? (values.heights as readonly RowValue[]).map(({ at }) => at as Mm).sort((a, b) => a - b)
    : evenly(values.lowest as Mm, values.highest as Mm, values.tierCount as number)
  const field = (name: string) => `build.params.${typed ? 'heights' : name}`
  if (heights.length < 1) return bad('no-tier', 'A rack has at least one tier; none was given.', field(''))
  const least = low + rail.height
  const lowest = heights[0]!
  if (lowest < least - sameLength)
    return bad(
      'tier-too-low',
      `A tier at ${say(lowest)} has its rails below the feet; it must be ${say(least)} or more.`,
      field('lowest'),
    )
  const most = values.height as Mm
  const highest = heights.at(-1)!
  if (highest > most + sameLength)
    return bad(
      'tier-too-high',
      `A tier at ${say(highest)} stands over the uprights, ${say(most)} high; it must be ${say(most)} or less.`,
      field('highest'),
    )
  const apart = rail.height + shelfOn(values)
  const tight = heights.findIndex((z, at) => at > 0 && z - heights[at - 1]! <= apart + sameLength)
  if (tight > 0)
    return bad(
      'tiers-too-near',
      `Tiers at ${say(heights[tight - 1]!)} and ${say(heights[tight]!)} lie in each other; they must be more than ${say(apart)} apart.`,
      field('tierCount'),
    )
  return good(heights)
}

const evenly = (lowest: Mm, highest: Mm, count: number): Mm[] =>
  Array.from({ length: count }, (_, at) => lowest + (at * (highest - lowest)) / (count - 1))
