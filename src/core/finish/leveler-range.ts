import { buildOf } from '../builds/index.ts'
import { valuesOf } from '../builds/values.ts'
import type { Job } from '../job.ts'
import { say, unitOf } from '../reading/show.ts'
import type { Shop } from '../shop.ts'
import type { LevelerRange } from './leveling.ts'

/** The range as the job gives it; undefined for a job without leveling feet. */
export function levelerRange(job: Job, shop: Shop): LevelerRange | undefined {
  const build = buildOf(job.build.kind)
  if (!build) return undefined
  const values = valuesOf(build, job.build.params, {
    units: job.units ?? unitOf(shop.reading),
    say: (mm) => say(mm, shop.reading),
  })
  if (!values.ok || values.value.levelers !== true) return undefined
  const { levelerLeast: least, levelerMost: most, levelerSetting: setting } = values.value
  return typeof least === 'number' && typeof most === 'number' && typeof setting === 'number'
    ? { least, most, setting }
    : undefined
}
