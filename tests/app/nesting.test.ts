import { afterEach, describe, expect, test, vi } from 'vitest'
import { planner } from '../../src/app/planner.ts'
import type { Solver } from '../../src/app/ports.ts'
import type { NestProblem } from '../../src/core/nest.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, hasRun, inline, rows, type Tablet, tabletOn, until } from './tablet.ts'

afterEach(closeTabs)

async function opened(
  ...given: Parameters<typeof tabletOn> extends [string, ...infer R] ? R : never
): Promise<Tablet> {
  const tablet = tabletOn(freshName(), ...given)
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  return tablet
}

/** A solver whose answers come when the test says so. */
function slow() {
  const asked: { problem: NestProblem; answer: () => void; fail: (why: string) => void; stopped: boolean }[] =
    []
  const solver: Solver = {
    name: 'slow 1',
    solve(problem, better) {
      const inner = inline.solve(problem, () => undefined)
      const entry = { problem, answer: () => {}, fail: (_why: string) => {}, stopped: false }
      const gate = new Promise<void>((resolve, reject) => {
        entry.answer = resolve
        entry.fail = (why) => reject(new Error(why))
      })
      asked.push(entry)
      const done = gate.then(() => inner.done)
      done.catch(() => undefined)
      void inner.done.then(better)
      return {
        done,
        stop: () => {
          entry.stopped = true
          entry.answer()
        },
      }
    },
  }
  return { asked, solver }
}

describe('a candidate nest', () => {
  test('answers the demand as it is now: three edits in a row ask the solver once', async () => {
    const solve = vi.spyOn(inline, 'solve')
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    solve.mockClear()
    for (const length of [500, 510, 520]) await tablet.actions.editParams(id, { rows: rows([2, length]) })
    // The plan follows each edit at once; the nest of the old demand is not shown beside it.
    expect(tablet.view(id).plan?.parts[0]?.longPoint).toBe(520)
    expect(tablet.view(id).nest).toBeNull()
    await hasRun(tablet, id)
    expect(tablet.view(id).nest?.sections[0]?.demand[0]?.mid).toBe(520)
    expect(solve.mock.calls.map(([problem]) => problem.parts[0]?.mid).at(-1)).toBe(520)
    expect(solve.mock.calls.length).toBeLessThanOrEqual(3)
    solve.mockRestore()
  })

  test('an answer to an older question is dropped, and its search told to stop', async () => {
    const { asked, solver } = slow()
    const tablet = await opened({ solver })
    const id = await tablet.actions.newJob('cut-list')
    tablet.actions.show(id)
    await until(tablet, () => asked.length === 1, 'the first question')
    await tablet.actions.editParams(id, { rows: rows([3, 450]) })
    await until(tablet, () => asked.length === 2, 'the second question')
    expect(asked[0]?.stopped).toBe(true)
    asked[0]?.answer()
    await new Promise((resolve) => setTimeout(resolve, 20))
    expect(tablet.view(id).nest).toBeNull()
    asked[1]?.answer()
    await hasRun(tablet, id)
    expect(tablet.view(id).nest?.sections[0]?.demand).toMatchObject([{ mid: 450, count: 3 }])
  })

  test('the best so far is told while the worker thinks, and Stop takes it', async () => {
    const { asked, solver } = slow()
    const tablet = await opened({ solver })
    const id = await tablet.actions.newJob('cut-list')
    tablet.actions.show(id)
    await until(tablet, () => tablet.view(id).nesting.cost === 6000, 'a best so far of 6000 mm')
    expect(tablet.view(id).nesting.state).toBe('working')
    tablet.actions.stopSolving(id)
    await hasRun(tablet, id)
    expect(asked[0]?.stopped).toBe(true)
    expect(tablet.view(id).nesting).toMatchObject({ state: 'found', cost: 6000 })
  })

  test('a worker that fails is said; showing the job again asks again', async () => {
    const { asked, solver } = slow()
    const tablet = await opened({ solver })
    const id = await tablet.actions.newJob('cut-list')
    tablet.actions.show(id)
    await until(tablet, () => asked.length === 1, 'a question')
    asked[0]?.fail('the worker stopped')
    await until(tablet, () => tablet.view(id).nesting.state === 'failed', 'failed')
    expect(tablet.view(id).nesting.text).toBe('the worker stopped')
    await new Promise((resolve) => setTimeout(resolve, 20))
    expect(asked).toHaveLength(1)
    tablet.actions.show(id)
    await until(tablet, () => asked.length === 2, 'asked again')
    asked[1]?.answer()
    await hasRun(tablet, id)
  })

  test('typing back and forth ends at the nest of what stands there', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    const first = tablet.view(id).nest?.id
    await tablet.actions.editParams(id, { rows: rows([2, 700]) })
    await tablet.actions.editParams(id, { rows: rows([2, 600]) })
    await hasRun(tablet, id)
    expect(tablet.view(id).nest?.id).toBe(first)
  })
})

describe('what a judge refuses is not shown', () => {
  test('a nest whose drop is 1 mm too long', async () => {
    const bent: Solver = {
      name: 'bent 1',
      solve(problem, better) {
        const { done, stop } = inline.solve(problem, better)
        const damaged = done.then((nest) => ({
          ...nest,
          sticks: nest.sticks.map((stick) => ({ ...stick, drop: stick.drop + 1 })),
        }))
        return { done: damaged, stop }
      },
    }
    const tablet = await opened({ solver: bent })
    const id = await tablet.actions.newJob('cut-list')
    tablet.actions.show(id)
    await until(tablet, () => tablet.view(id).refused.length > 0, 'refused')
    expect(tablet.view(id)).toMatchObject({ nest: null, cuts: [] })
    expect(tablet.view(id).plan?.run).toBeUndefined()
    await tablet.actions.accept(id)
    expect(tablet.state().trouble).toContain('no nest to work by')
    expect(tablet.state().facts).toEqual([])
  })

  test('a run that came without its verdict', async () => {
    const tablet = await opened(
      {},
      {
        ...planner,
        plan: (...given) => {
          const made = planner.plan(...given)
          if (!made.ok) return made
          const { verdict: _verdict, ...unjudged } = made.value
          return { ok: true, value: unjudged }
        },
      },
    )
    const id = await tablet.actions.newJob('cut-list')
    tablet.actions.show(id)
    await until(tablet, () => tablet.view(id).refused.length > 0, 'refused')
    expect(tablet.view(id).refused).toEqual(['The plan came without its check.'])
    expect(tablet.view(id).cuts).toEqual([])
  })

  test('a planner that throws is said; the job, its problems and the app go on', async () => {
    let broken = false
    const tablet = await opened(
      {},
      {
        ...planner,
        plan: (...given) => {
          if (broken) throw new Error('no such corner')
          return planner.plan(...given)
        },
      },
    )
    const id = await cutListJob(tablet, 2, 600)
    broken = true
    await tablet.actions.editJob(id, { quantity: 2 })
    expect(tablet.view(id)).toMatchObject({ stale: true, job: { quantity: 2 } })
    expect(tablet.view(id).problems[0]?.text).toContain('no such corner')
    broken = false
    await tablet.actions.editJob(id, { quantity: 3 })
    expect(tablet.view(id)).toMatchObject({ stale: false, problems: [] })
  })
})

describe('the job changes after cutting began', () => {
  const cutNext = async (tablet: Tablet, id: string, times: number) => {
    for (let at = 0; at < times; at++) {
      const cut = tablet.view(id).cuts.find(({ done }) => done === undefined)!
      await tablet.actions.cut(id, cut)
    }
    expect(tablet.state().trouble).toBeNull()
  }

  test('3 of 4 are cut, then 6 are wanted: the rest is 3, from the 4182.5 mm that is left of the stick', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 4, 600)
    await cutNext(tablet, id, 3)
    const first = tablet.view(id).nest!
    await tablet.actions.editParams(id, { rows: rows([6, 600]) })
    expect(tablet.view(id).nesting).toMatchObject({ state: 'accepted', rest: true })
    expect(tablet.view(id).cuts).toEqual([])
    await tablet.actions.planRest(id)
    expect(tablet.state().trouble).toBeNull()
    await tablet.actions.acceptRest(id)

    const { nest, cuts, nesting, spares } = tablet.view(id)
    expect(nest?.parent).toBe(first.id)
    expect(nesting.state).toBe('accepted')
    expect(nesting.rest).toBeUndefined()
    expect(nest?.sections[0]?.demand).toMatchObject([{ count: 3, first: 4 }])
    // 6000 − clean-up 10 − 3 × (600 + kerf 2.5).
    expect(nest?.sections[0]?.sticks).toMatchObject([{ from: 'rack', length: 4182.5 }])
    expect(cuts.map(({ product }) => product.id)).toEqual(['A4', 'A5', 'A6'])
    expect(spares).toEqual([])
    await cutNext(tablet, id, 3)
    expect(tablet.view(id).cuts.every(({ done }) => done !== undefined)).toBe(true)
    expect(tablet.state().progress.made).toHaveLength(6)
    expect(tablet.state().progress.rack).toEqual([])
    // The first nest is as it was: paper by it may hang on the wall.
    expect((await tablet.disk.readAll()).nests).toContainEqual(first)

    await tablet.actions.planRest(id)
    expect(tablet.state().trouble).toContain('nothing left to plan')
  })

  test('2 of 600 are cut, then 500 is wanted: the two are spares, and all four are planned anew', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 4, 600)
    await cutNext(tablet, id, 2)
    await tablet.actions.editParams(id, { rows: rows([4, 500]) })
    expect(tablet.view(id).spares).toEqual(['A1', 'A2'])
    await tablet.actions.planRest(id)
    await tablet.actions.acceptRest(id)
    expect(tablet.view(id).nest?.sections[0]?.demand).toMatchObject([{ count: 4, mid: 500 }])
    expect(tablet.view(id).spares).toEqual(['A1', 'A2'])
    // Back to 600: the two count again.
    await tablet.actions.editParams(id, { rows: rows([4, 600]) })
    expect(tablet.view(id).spares).toEqual([])
    expect(tablet.view(id).nesting.rest).toBe(true)
  })

  test('a change that is taken back leaves the accepted nest in use', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 4, 600)
    await cutNext(tablet, id, 1)
    const { nest } = tablet.view(id)
    await tablet.actions.editJob(id, { quantity: 2 })
    expect(tablet.view(id).nesting.rest).toBe(true)
    await tablet.actions.editJob(id, { quantity: 1 })
    expect(tablet.view(id).nesting).toMatchObject({ state: 'accepted' })
    expect(tablet.view(id).nest).toEqual(nest)
    expect(tablet.view(id).cuts.filter(({ done }) => done)).toHaveLength(1)
  })

  test('while the new sizes give no plan, the old one stays with its check-offs, and can be cut on', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 4, 600)
    await cutNext(tablet, id, 1)
    await tablet.actions.editParams(id, { rows: rows([4, 99_000]) })
    expect(tablet.view(id).problems[0]?.text).toContain('99000')
    expect(tablet.view(id)).toMatchObject({ stale: true })
    await cutNext(tablet, id, 1)
    expect(tablet.view(id).cuts.filter(({ done }) => done)).toHaveLength(2)
  })

  test('something is cut while the worker thinks about the rest: its answer is not taken', async () => {
    const { asked, solver } = slow()
    const tablet = await opened({ solver })
    const id = await tablet.actions.newJob('cut-list')
    await tablet.actions.editParams(id, { rows: rows([4, 600]) })
    tablet.actions.show(id)
    await until(tablet, () => asked.length === 1, 'a question')
    asked[0]?.answer()
    await hasRun(tablet, id)
    await cutNext(tablet, id, 1)
    const planning = tablet.actions.planRest(id)
    await until(tablet, () => asked.length === 2, 'the rest')
    await cutNext(tablet, id, 1)
    asked[1]?.answer()
    await planning
    expect(tablet.state().trouble).toContain('Something was cut')
    expect(tablet.view(id).nest?.parent).toBeUndefined()
  })
})

describe('blanks and halves that lie there when the rest is planned', () => {
  const cutOne = async (tablet: Tablet, id: string, stage: string) => {
    const cut = tablet
      .view(id)
      .cuts.find(({ done, product }) => done === undefined && product.kind === stage)!
    await tablet.actions.cut(id, cut)
    expect(tablet.state().trouble).toBeNull()
  }
  const left = (tablet: Tablet, id: string, stage: string) =>
    tablet.view(id).cuts.filter(({ done, product }) => done === undefined && product.kind === stage).length

  test('4 blanks of 4 are cut and one is half done, then 6 are wanted: steel for 2 more, and 11 cuts to go', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('cut-list')
    await tablet.actions.editParams(id, { rows: rows([4, 600, 45, 45]) })
    tablet.actions.show(id)
    await hasRun(tablet, id)
    for (let at = 0; at < 4; at++) await cutOne(tablet, id, 'blank')
    await cutOne(tablet, id, 'half')
    await tablet.actions.editParams(id, { rows: rows([6, 600, 45, 45]) })
    await tablet.actions.planRest(id)
    expect(tablet.state().trouble).toBeNull()
    await tablet.actions.acceptRest(id)

    const { nest, spares } = tablet.view(id)
    const sticks = nest!.sections[0]!.sticks
    expect(sticks.filter(({ length }) => length === 600)).toHaveLength(4)
    // 6000 − clean-up 10 − 4 × (600 + 2.5) is left of the one stick, and gives the other two.
    expect(sticks.filter(({ length }) => length !== 600)).toMatchObject([{ from: 'rack', length: 3580 }])
    expect(nest!.sections[0]!.demand).toMatchObject([{ count: 6 }])
    expect(spares).toEqual([])
    expect([left(tablet, id, 'blank'), left(tablet, id, 'half'), left(tablet, id, 'piece')]).toEqual([
      2, 5, 6,
    ])

    for (let at = 0; at < 2; at++) await cutOne(tablet, id, 'blank')
    for (let at = 0; at < 5; at++) await cutOne(tablet, id, 'half')
    for (let at = 0; at < 6; at++) await cutOne(tablet, id, 'piece')
    const { made } = tablet.state().progress
    expect(made.filter(({ stage, used }) => stage === 'piece' && !used)).toHaveLength(6)
    expect(made.filter(({ stage, used }) => stage !== 'piece' && !used)).toEqual([])
    expect(tablet.view(id).spares).toEqual([])
  })

  test('all that is open is begun: no solver is asked, nothing is bought', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('cut-list')
    await tablet.actions.editParams(id, { rows: rows([3, 600, 45, 45]) })
    tablet.actions.show(id)
    await hasRun(tablet, id)
    for (let at = 0; at < 3; at++) await cutOne(tablet, id, 'blank')
    await tablet.actions.editParams(id, { rows: rows([2, 600, 45, 45]) })
    expect(tablet.view(id).nesting.rest).toBe(true)
    const solve = vi.spyOn(inline, 'solve')
    await tablet.actions.planRest(id)
    await tablet.actions.acceptRest(id)
    expect(solve).not.toHaveBeenCalled()
    solve.mockRestore()
    expect(tablet.state().trouble).toBeNull()
    expect(tablet.view(id).nest?.sections[0]).toMatchObject({ cost: 0, bound: 0 })
    expect([left(tablet, id, 'blank'), left(tablet, id, 'half'), left(tablet, id, 'piece')]).toEqual([
      0, 2, 2,
    ])
    expect(tablet.view(id).spares).toEqual(['A3'])
  })

  test('a wider blade in the shop than the accepted nest reckons with asks for a plan of the rest', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 4, 600)
    await tablet.actions.cut(id, tablet.view(id).cuts[0]!)
    const [saw] = handShop.saws
    const wider = { ...saw!, blades: [{ ...saw!.blades[0]!, kerf: 3 }] }
    await tablet.actions.saveShop({ ...handShop, saws: [wider] })
    expect(tablet.view(id)).toMatchObject({ nesting: { state: 'accepted', rest: true }, refused: [] })
    await tablet.actions.planRest(id)
    expect(tablet.state().trouble).toBeNull()
    await tablet.actions.acceptRest(id)
    expect(tablet.view(id).nest?.sections[0]).toMatchObject({ kerf: 3, demand: [{ count: 3 }] })
  })
})
