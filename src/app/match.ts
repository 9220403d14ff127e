import type { Nest, NestPart, NestProblem } from '../core/nest.ts'
import { sectionKey } from '../core/section/section.ts'
import { stepsNearest } from '../core/units.ts'

const line = (section: string, part: NestPart): string =>
  [section, part.key, stepsNearest(part.mid), part.count].join(' | ')

const lines = (of: readonly { readonly section: string; readonly parts: readonly NestPart[] }[]): string =>
  of
    .flatMap(({ section, parts }) => parts.map((part) => line(section, part)))
    .sort()
    .join('\n')

/** The nest cuts exactly what is open: the same geometry from the same section, as long and as often. Marks may differ. */
export function stillFits(nest: Nest, open: readonly NestProblem[]): boolean {
  const has = nest.sections.map(({ section, demand }) => ({ section: sectionKey(section), parts: demand }))
  const wants = open.map(({ section, parts }) => ({ section: sectionKey(section), parts }))
  return lines(has) === lines(wants)
}
