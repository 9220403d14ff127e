import type { Nest, NestPart, NestProblem } from '../nest.ts'
import type { Part } from '../plan-shapes.ts'
import { bad, good, type Result } from '../result.ts'
import { sectionKey } from '../section/section.ts'

// Several jobs nested for one purchase. Each job's parts begin with A, and a run needs one name for each piece: part A
// of the first job is 1A here, its fifth piece 1A5, and part A of the second job 2A.

export interface JobDemand {
  readonly job: string
  readonly demand: readonly NestProblem[]
}

const marked = (mark: string, place: number): string => `${place + 1}${mark}`

const renamed = (part: NestPart, place: number): NestPart => ({
  ...part,
  mark: marked(part.mark, place),
  ...(part.makes ? { makes: part.makes.map((pair) => renamedPair(pair, place)) } : {}),
})

const renamedPair = (
  [one, two]: NonNullable<NestPart['makes']>[number],
  place: number,
): NonNullable<NestPart['makes']>[number] => [
  { ...one, piece: marked(one.piece, place), mark: marked(one.mark, place) },
  { ...two, piece: marked(two.piece, place), mark: marked(two.mark, place) },
]

/**
 * One problem per section for all these jobs, in their order; the stock is that of the first that asks for the section.
 * One job alone keeps its marks. Refused where two jobs cut one section in different ways.
 */
export function demandTogether(jobs: readonly JobDemand[]): Result<readonly NestProblem[]> {
  if (jobs.length === 1) return good(jobs[0]!.demand)
  const bySection = new Map<string, NestProblem>()
  for (const [place, { demand }] of jobs.entries())
    for (const problem of demand) {
      const key = sectionKey(problem.section)
      const parts = problem.parts.map((part) => renamed(part, place))
      const before = bySection.get(key)
      if (before && before.way !== problem.way)
        return bad(
          'two-ways',
          `One job is cut ${before.way}, another ${problem.way}; bought together they must be cut one way.`,
        )
      bySection.set(key, before ? { ...before, parts: [...before.parts, ...parts] } : { ...problem, parts })
    }
  return good([...bySection.values()])
}

/** The parts of all jobs of a nest as the nest marks them, so that the saw and its judge find each by key and mark. */
export function partsTogether(
  { jobs }: Pick<Nest, 'jobs'>,
  of: readonly { readonly job: string; readonly parts: readonly Part[] }[],
): readonly Part[] {
  if (jobs.length === 1) return of.flatMap(({ parts }) => parts)
  return of.flatMap(({ job, parts }) => {
    const place = jobs.indexOf(job)
    return place < 0 ? [] : parts.map((part) => ({ ...part, mark: marked(part.mark, place) }))
  })
}
