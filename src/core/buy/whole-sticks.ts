import type { NestStick } from '../nest.ts'
import type { Mm } from '../units.ts'

// Sticks as they are bought: two halves of one length are one stick, and of an odd number the last is one by itself.

const groups = (sticks: readonly NestStick[]): ReadonlyMap<string, readonly NestStick[]> => {
  const found = new Map<string, NestStick[]>()
  for (const stick of sticks) {
    const name = `${stick.length} ${stick.halfOf}`
    found.set(name, [...(found.get(name) ?? []), stick])
  }
  return found
}

const wholes = (alike: readonly NestStick[]): number =>
  alike[0]?.halfOf === undefined ? alike.length : Math.ceil(alike.length / 2)

/** How many sticks these bought ones are, halves counted in pairs. */
export const wholeSticks = (bought: readonly NestStick[]): number =>
  [...groups(bought).values()].reduce((sum, alike) => sum + wholes(alike), 0)

/** Length that is bought with them, mm. */
export const boughtLength = (bought: readonly NestStick[]): Mm =>
  [...groups(bought).values()].reduce(
    (sum, alike) => sum + wholes(alike) * (alike[0]!.halfOf ?? alike[0]!.length),
    0,
  )
