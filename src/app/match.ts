import { type Nest, type NestPart, type NestProblem, sharing } from '../core/nest.ts'
import { sectionKey } from '../core/section/section.ts'
import { sameLength } from '../core/tolerance.ts'
import { stepsNearest } from '../core/units.ts'

const lines = (of: readonly { readonly section: string; readonly parts: readonly NestPart[] }[]): string =>
  of
    .flatMap(({ section, parts }) => {
      const shares = sharing(parts)
      return parts.map(({ key, mid, count, same }) =>
        [section, key, stepsNearest(mid), count, same === undefined ? '' : shares.get(same)].join(' | '),
      )
    })
    .sort()
    .join('\n')

/**
 * Another blade takes another width, so that every set-up is reckoned anew; or the shop now takes more for the clean-up
 * cut or the vise than the nest has left room for.
 */
const otherFigures = (nest: Nest, open: readonly NestProblem[]): boolean =>
  open.some((problem) => {
    const section = nest.sections.find((one) => sectionKey(one.section) === sectionKey(problem.section))
    if (!section) return false
    const tight = (['trim', 'grip'] as const).some((figure) => section[figure] < problem[figure] - sameLength)
    return tight || Math.abs(section.kerf - problem.kerf) > sameLength
  })

/** The nest cuts exactly what this job has open: the same geometry from the same section, as long and as often. Marks may differ. */
export function stillFits(nest: Nest, open: readonly NestProblem[], job: string): boolean {
  const has = nest.sections.map(({ section, demand }) => ({
    section: sectionKey(section),
    parts: demand.filter((part) => part.job === job),
  }))
  const wants = open.map(({ section, parts }) => ({ section: sectionKey(section), parts }))
  return lines(has) === lines(wants) && !otherFigures(nest, open)
}
