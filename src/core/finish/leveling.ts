import type { Mm } from '../units.ts'

/** What the leveling feet of a job can do, mm from floor to cap. */
export interface LevelerRange {
  readonly least: Mm
  readonly most: Mm
  /** Where they are planned to stand. */
  readonly setting: Mm
}

export interface Leveling {
  /** Setting of each foot, mm from floor to cap, in the order of the gaps. */
  readonly settings: readonly Mm[]
  /** Feet, by number from 1, that cannot reach their setting. */
  readonly beyond: readonly number[]
}

/**
 * Settings of the feet on a floor that is not level: `lows` says how far the floor lies below its highest spot under
 * each foot. All are moved alike so that they lie in the middle of what the feet can do.
 */
export function leveling(lows: readonly Mm[], least: Mm, most: Mm): Leveling {
  const deepest = Math.max(...lows, 0)
  const shallow = Math.min(...lows)
  const spare = most - least - (deepest - shallow)
  const start = least + Math.max(spare, 0) / 2
  const settings = lows.map((low) => start + low - shallow)
  return {
    settings,
    beyond: settings.flatMap((setting, at) =>
      setting > most + 1e-9 || setting < least - 1e-9 ? [at + 1] : [],
    ),
  }
}
