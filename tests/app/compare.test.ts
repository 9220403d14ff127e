import { afterEach, describe, expect, test } from 'vitest'
import type { Solver } from '../../src/app/ports.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, inline, rows, type Tablet, tabletOn } from './tablet.ts'

afterEach(closeTabs)

const section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 } as const

async function opened(given: Parameters<typeof tabletOn>[1] = {}): Promise<Tablet> {
  const tablet = tabletOn(freshName(), given)
  await tablet.actions.open()
  await tablet.actions.saveShop({
    ...handShop,
    usualLengths: [6000, 3000],
    sections: [
      {
        section,
        name: 'forty',
        stock: [
          { length: 6000, price: 3000 },
          { length: 4000, price: 2200 },
        ],
      },
    ],
  })
  return tablet
}

describe('what other stock would mean', () => {
  // Ten pieces of 950, kerf 2.5, clean-up 10, 60 held: 6 to a 6000 (927.5 left... 6 · 950 + 5 · 2.5 = 5712.5 of 5927.5),
  // 4 to a 4000 (3807.5 of 3927.5), 3 to a 3000 (2855 of 2927.5).
  test('ten of 950: 6000 and 4000 for 52.00, only 6000 two for 60.00, only 4000 three for 66.00, only 3000 four', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 10, 950)
    expect(tablet.view(id).nest!.sections[0]!.cost).toBe(5200)
    await tablet.actions.compare(id)
    const compared = tablet.state().compared![id]!
    expect(compared.working).toBe(false)
    expect(compared.rows.map(({ length, comes }) => [length, comes])).toEqual([
      [3000, { sticks: 4, bought: 12000, proved: true }],
      [4000, { sticks: 3, bought: 12000, cents: 6600, proved: true }],
      [6000, { sticks: 2, bought: 12000, cents: 6000, proved: true }],
    ])
  })

  test('with a drop of 5000 on the rack that gives five of them, what it saves is told: 52.00 instead of 30.00', async () => {
    const tablet = await opened()
    await tablet.actions.found({ section, length: 5000, ends: ['cut', 'cut'] })
    const id = await cutListJob(tablet, 10, 950)
    expect(tablet.view(id).nest!.sections[0]!.cost).toBe(3000)
    await tablet.actions.compare(id)
    const [without] = tablet.state().compared![id]!.rows
    expect(without!.length).toBeUndefined()
    expect(without!.comes).toEqual({ sticks: 2, bought: 10000, cents: 5200, proved: true })
  })

  test('a length that is too short is said, and the others are still compared', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 1, 2950)
    await tablet.actions.compare(id)
    const rowsOf = tablet.state().compared![id]!.rows
    expect(rowsOf.map(({ length, comes }) => [length, 'not' in comes])).toEqual([
      [3000, true],
      [4000, false],
      [6000, false],
    ])
  })

  test('a nest that is worked by goes first: an edit ends the comparison that has the worker', async () => {
    let stopped = 0
    const solver: Solver = {
      name: 'slow to compare 1',
      solve(problem, better, budget) {
        if (!budget) return inline.solve(problem, better)
        let stop = () => {}
        const done = new Promise<never>((_, reject) => {
          stop = () => {
            stopped += 1
            reject(new Error('stopped'))
          }
        })
        return { done, stop: () => stop() }
      },
    }
    const tablet = await opened({ solver })
    const id = await cutListJob(tablet, 10, 950)
    const comparing = tablet.actions.compare(id)
    await tablet.actions.editParams(id, { rows: rows([12, 950]) })
    await comparing
    expect(stopped).toBe(1)
    expect(tablet.state().compared![id]).toBeUndefined()
  })
})
