// A nest in any way of cutting for parts made by hand: demand, solver, seal.
import type { CuttingWay, Nest } from '../../../src/core/nest.ts'
import type { Part } from '../../../src/core/plan-shapes.ts'
import { demandByWay } from '../../../src/core/saw/demand-by-way.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { solve } from '../../../src/nest/solve.ts'

export interface Asked {
  readonly nest: Nest
  readonly demand: ReturnType<typeof demandByWay>
}

/** The nest of these parts, or in words why there is none. */
export function nestByWay(
  parts: readonly Part[],
  shop: Shop,
  way: CuttingWay,
  quantity = 1,
  steps = 100_000,
): Asked | string {
  const demand = demandByWay({ parts, job: 'job', quantity, rack: [] }, shop, () => way)
  let number = 0
  const sections = []
  for (const problem of demand.problems) {
    const solved = solve(problem, { steps })
    if (!solved.ok) return solved.problems.map(({ text }) => text).join(' ')
    if (solved.value.unplaced.some((count) => count > 0)) return 'the stock runs out'
    const { sticks, ...section } = solved.value.nest
    sections.push({
      ...section,
      sticks: sticks.map((stick) => {
        number += 1
        return { ...stick, id: `S${number}` }
      }),
    })
  }
  return { nest: { version: 1, id: 'n', solver: 'test', jobs: ['job'], sections }, demand }
}
