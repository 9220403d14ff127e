import type { Made, RackPiece } from '../core/facts.ts'
import type { Nest, NestPart, NestProblem, NestSection, NestStick, StockLength } from '../core/nest.ts'
import { sectionKey } from '../core/section/section.ts'
import { fromSteps, stepsNearest, stepsUp } from '../core/units.ts'
import { blankSteps } from './recut.ts'

/** What is open, parted into what the solver has to find steel for and what lies there as a blank or a half. */
export interface Begun {
  /** For the solver: the open demand without the pieces that are begun. */
  readonly left: readonly NestProblem[]
  /** The blanks and halves that serve their own part as they lie, by their cut. */
  readonly taken: ReadonlySet<string>
  /** The solved sections with the begun pieces put back, each as a rack piece that is used as it lies. */
  readonly withBegun: (solved: readonly NestSection[]) => readonly NestSection[]
}

const square = { p: 0, q: 0 } as const

/**
 * Blanks and halves of the job that nobody has cut on are steel for their own part and need no other: the solver is
 * not asked for them. They serve a part of the same geometry and blank length, as the nest that they came from says.
 */
export function begunOf(
  open: readonly NestProblem[],
  made: readonly Made[],
  job: string,
  nests: ReadonlyMap<string, Nest>,
): Begun {
  const lying = new Map<string, string[]>()
  for (const { id, name } of lyingOf(made, job, nests)) lying.set(name, [...(lying.get(name) ?? []), id])
  const sticksOf = new Map<NestProblem, readonly NestStick[]>()
  const left: NestProblem[] = []
  const taken = new Set<string>()
  for (const problem of open) {
    const sticks: NestStick[] = []
    const parts = problem.parts.flatMap((part): readonly NestPart[] => {
      if (part.finished) return [part]
      const ids = (lying.get(nameOf(problem.section, part)) ?? []).splice(0, part.count)
      const first = part.first ?? 1
      for (const id of ids) taken.add(id)
      sticks.push(...ids.map((id, at) => stickOf(id, part, first + at)))
      if (ids.length === 0) return [part]
      const rest = { ...part, count: part.count - ids.length, first: first + ids.length }
      return rest.count > 0 ? [rest] : []
    })
    sticksOf.set(problem, sticks)
    if (parts.length > 0) left.push({ ...problem, parts })
  }
  return {
    left,
    taken,
    withBegun: (solved) =>
      open.map((problem) => {
        const key = sectionKey(problem.section)
        const section = solved.find((one) => sectionKey(one.section) === key) ?? nothingToFind(problem)
        return putBack(section, problem, sticksOf.get(problem)!)
      }),
  }
}

/** Blanks of the job that lie there and serve no part of their own length: steel, with both ends cut square. */
export function spareBlanks(
  made: readonly Made[],
  job: string,
  nests: ReadonlyMap<string, Nest>,
  taken: ReadonlySet<string>,
): readonly RackPiece[] {
  return made.flatMap((one): readonly RackPiece[] => {
    const steps = blankSteps(one.key)
    const free = one.job === job && one.stage === 'blank' && !one.used && !taken.has(one.id)
    const at = nests
      .get(one.nest ?? '')
      ?.sections.find(({ sticks }) => sticks.some(({ id }) => id === one.stick))
    if (!free || steps === undefined || !at) return []
    return [{ id: one.id, section: at.section, length: fromSteps(steps), ends: ['cut', 'cut'], from: 'drop' }]
  })
}

/** Halves before blanks: more work is in them. */
function lyingOf(made: readonly Made[], job: string, nests: ReadonlyMap<string, Nest>) {
  const steel = made.filter((one) => one.job === job && !one.used && one.stage !== 'piece')
  const inOrder = [
    ...steel.filter(({ stage }) => stage === 'half'),
    ...steel.filter(({ stage }) => stage === 'blank'),
  ]
  return inOrder.flatMap(({ id, nest, mark, key }) => {
    for (const { section, demand } of nests.get(nest ?? '')?.sections ?? []) {
      const part = demand.find((one) => one.job === job && one.mark === mark)
      // A blank of two pieces bears the mark of one of them, and is longer.
      const own = part && (blankSteps(key) ?? stepsUp(part.mid)) === stepsUp(part.mid)
      if (own) return [{ id, name: nameOf(section, part) }]
    }
    return []
  })
}

const nameOf = (section: NestProblem['section'], { key, mid }: NestPart): string =>
  JSON.stringify([sectionKey(section), key, stepsNearest(mid)])

/** Both ends count as cut square: a half has the length of its blank, and nothing else is cut from it. */
function stickOf(rack: string, part: NestPart, number: number): NestStick {
  const { mark, key, job, perCopy } = part
  const length = fromSteps(stepsUp(part.mid))
  const piece = `${mark}${number}`
  const copy = 1 + Math.floor((number - 1) / perCopy)
  return {
    // Sticks are named through the whole nest when it is sealed.
    id: rack,
    from: 'rack',
    rack,
    length,
    price: 0,
    ends: ['cut', 'cut'],
    way: 'square first',
    pieces: [
      {
        piece,
        mark,
        key,
        job,
        copy,
        turn: 'none',
        ends: [
          { x: length, ...square },
          { x: 0, ...square },
        ],
        blank: `${piece}.b`,
      },
    ],
    drop: 0,
  }
}

/** All of a section is begun: nothing is bought, and nothing costs less. */
export const nothingToFind = ({ section, kerf, trim, grip, way, stock }: NestProblem): NestSection => ({
  section,
  kerf,
  trim,
  grip,
  way,
  demand: [],
  stock,
  sticks: [],
  cost: 0,
  bound: 0,
  proved: true,
})

/** Steel for nothing that serves its own part changes neither cost nor bound: no nest would leave it lying. */
function putBack(section: NestSection, { parts }: NestProblem, begun: readonly NestStick[]): NestSection {
  if (begun.length === 0) return section
  const stock = begun.map(
    ({ length, ends, rack }): StockLength => ({ length, price: 0, count: 1, ends, rack: rack! }),
  )
  return {
    ...section,
    demand: parts,
    stock: [...section.stock, ...stock],
    sticks: [...begun, ...section.sticks],
  }
}
