import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Made } from '../../../src/core/facts.ts'
import type { Nest } from '../../../src/core/nest.ts'
import type { BenchCut, Part, Run } from '../../../src/core/plan-shapes.ts'
import { benchCuts, cutFact, nextCut, sparesOf } from '../../../src/core/saw/bench.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import { nest, nestSection, part, shop } from './sample.ts'

const side = part({ length: 404, ends: [30, 30] })
const leg = part({ mark: 'L', length: 700, ends: [0, 0] })
const allowance = 3

function workOn(parts: readonly Part[], sticks: readonly (readonly string[])[], id = 'nest-1', first = {}) {
  const on = nest([nestSection(parts, { sticks, allowance, first })], id)
  const run = planRun(on, parts, shop({ blankAllowance: allowance }))
  if (!run.ok) throw new Error(run.problems[0]!.text)
  return { run: run.value, on }
}

/** What the log makes of a cut. */
function madeBy(cut: BenchCut, id: string, on: Nest, before: readonly Made[]): Made[] {
  const { from, ...body } = cutFact(cut)
  const used = 'piece' in from ? from.piece : undefined
  const made: Made = {
    ...body,
    from,
    id,
    job: cut.product.job ?? 'job',
    nest: on.id,
    stick: cut.stick,
    used: false,
  }
  return [...before.map((one) => (one.id === used ? { ...one, used: true } : one)), made]
}

/** Checks off the cuts that `choose` picks until it picks none. */
function workThrough(
  run: Run,
  on: Nest,
  choose: (cuts: readonly BenchCut[]) => BenchCut | undefined,
  start: readonly Made[] = [],
): readonly Made[] {
  let made = start
  for (let count = 0; ; count++) {
    const cut = choose(benchCuts(run, on, made))
    if (!cut) return made
    made = madeBy(cut, `d:${made.length + 1}`, on, made)
    if (count > 1000) throw new Error('does not end')
  }
}

const doneOf = (cuts: readonly BenchCut[]) =>
  cuts.filter(({ done }) => done !== undefined).map(({ product }) => product.id)

describe('six sides and a leg, from two sticks', () => {
  const { run, on } = workOn(
    [side, leg],
    [
      ['L', 'A', 'A', 'A'],
      ['A', 'A', 'A'],
    ],
  )
  const all = 1 + 6 + 6 + 6

  test('the list has every cut once, with load, clean-up, turns and unload as the programs have them', () => {
    const cuts = benchCuts(run, on, [])
    expect(cuts).toHaveLength(all)
    expect(cuts.map(({ index }) => index)).toEqual(cuts.map((_, at) => at))
    const firstOfStick = cuts.filter(({ trimFirst }) => trimFirst !== undefined)
    expect(firstOfStick.map(({ loaded, trimFirst, loadFirst }) => [loaded, trimFirst, loadFirst])).toEqual([
      ['S1', 10, true],
      ['S2', 10, true],
    ])
    expect(cuts.filter(({ unload }) => unload).map(({ unload }) => unload)).toEqual(['S1.1', 'S2.1'])
    const second = cuts.find(({ product }) => product.id === 'A4')!
    expect(second).toMatchObject({ loaded: 'A4.m', stick: 'S2', turns: ['flip'], loadFirst: true })
  })

  test('a new set-up is said where head, stop or side move, and only there', () => {
    const moves = benchCuts(run, on, []).filter(({ newSetUp }) => newSetUp)
    expect(moves.map(({ setUp }) => [setUp.swing, setUp.stop])).toEqual([
      [0, 700],
      [0, 407],
      [-30, 406],
      [-30, 404],
    ])
    expect(run.work).toMatchObject({ heads: 1, stops: 4 })
  })

  test('from first to last: each cut is the next one, halves and pieces name what they are cut from', () => {
    const made = workThrough(run, on, nextCut)
    expect(made).toHaveLength(all)
    const cuts = benchCuts(run, on, made)
    expect(nextCut(cuts)).toBeUndefined()
    const first = cuts.find(({ product }) => product.id === 'A1')!
    expect(made.find(({ id }) => id === first.done)!.from).toEqual({ piece: first.parent })
    expect(sparesOf(cuts, made, { id: 'job', parts: [{ ...side, count: 6 }, leg], quantity: 1 })).toEqual([])
    expect(new Set(made.map(({ label }) => label))).toEqual(
      new Set(['A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'L1']),
    )
  })

  test('a half has no parent before its blank is cut; a blank from S2 is the first of S2, whatever it was called', () => {
    const halves = benchCuts(run, on, []).filter(({ product }) => product.kind === 'half')
    expect(halves.every(({ parent }) => parent === undefined)).toBe(true)
    const blank = benchCuts(run, on, []).find(({ product }) => product.id === 'A5.b')!
    const made = madeBy(blank, 'd:1', on, [])
    const cuts = benchCuts(run, on, made)
    expect(doneOf(cuts)).toEqual(['A4.b'])
    expect(cuts.filter(({ parent }) => parent).map(({ product, parent }) => [product.id, parent])).toEqual([
      ['A4.m', 'd:1'],
    ])
  })

  test('two tablets cut the same blank: two pieces of steel, the next place is filled too', () => {
    const blank = benchCuts(run, on, []).find(({ product }) => product.id === 'A1.b')!
    const made = madeBy(blank, 'e:1', on, madeBy(blank, 'd:1', on, []))
    expect(doneOf(benchCuts(run, on, made))).toEqual(['A1.b', 'A2.b'])
  })

  test('a leg cut twice where one is wanted: the second is a spare', () => {
    const cut = benchCuts(run, on, []).find(({ product }) => product.id === 'L1')!
    const made = madeBy(cut, 'e:1', on, madeBy(cut, 'd:1', on, []))
    const cuts = benchCuts(run, on, made)
    expect(doneOf(cuts)).toEqual(['L1'])
    const spares = sparesOf(cuts, made, { id: 'job', parts: [{ ...side, count: 6 }, leg], quantity: 1 })
    expect(spares.map(({ id }) => id)).toEqual(['e:1'])
  })

  test('a half whose blank was undone stands for its blank as well: nothing is asked twice', () => {
    const blank = benchCuts(run, on, []).find(({ product }) => product.id === 'A1.b')!
    const one = madeBy(blank, 'd:1', on, [])
    const half = benchCuts(run, on, one).find(({ product }) => product.id === 'A1.m')!
    const made = madeBy(half, 'd:2', on, one).filter(({ id }) => id !== 'd:1')
    expect(doneOf(benchCuts(run, on, made)).sort()).toEqual(['A1.b', 'A1.m'])
  })

  test('a finished piece that was recut into something else no longer fills its place', () => {
    const cut = benchCuts(run, on, []).find(({ product }) => product.id === 'L1')!
    const made = madeBy(cut, 'd:1', on, []).map((one) => ({ ...one, used: true }))
    expect(doneOf(benchCuts(run, on, made))).toEqual([])
  })
})

describe('a nest of what is left', () => {
  // Two sides were finished under the first nest; the second counts on from A3.
  const old = workOn([side], [['A', 'A', 'A', 'A', 'A', 'A']], 'old')
  const rest = workOn([side], [['A', 'A', 'A', 'A']], 'rest', { A: 3 })
  /** So many pieces from the stick to their second end, each as soon as it can be. */
  const cutWhole = (count: number) =>
    workThrough(old.run, old.on, (cuts) => {
      const open = cuts.filter(({ done }) => done === undefined)
      const of = (kind: string) => open.find(({ product, parent }) => product.kind === kind && parent)
      const finished = doneOf(cuts).filter((id) => /^A\d$/.test(id)).length
      return finished < count ? (of('piece') ?? of('half') ?? open[0]) : undefined
    })

  test('pieces that were there before it fill no place; one more does, with its blank and half', () => {
    expect(doneOf(benchCuts(rest.run, rest.on, cutWhole(2)))).toEqual([])
    const [piece, ...steel] = doneOf(benchCuts(rest.run, rest.on, cutWhole(3))).sort()
    expect(steel).toEqual([`${piece}.b`, `${piece}.m`])
  })

  test('a blank left over from the old nest is used; its half is then the new nest’s', () => {
    const blank = benchCuts(old.run, old.on, []).find(({ product }) => product.id === 'A1.b')!
    const left = madeBy(blank, 'd:1', old.on, [])
    const cuts = benchCuts(rest.run, rest.on, left, 'job')
    expect(doneOf(cuts)).toEqual(['A3.b'])
    const half = cuts.find(({ parent }) => parent === 'd:1')!
    expect(half.product.kind).toBe('half')
    const made = madeBy(half, 'd:2', rest.on, left)
    const done = benchCuts(rest.run, rest.on, made, 'job').filter((cut) => cut.done !== undefined)
    expect(done.map(({ product }) => product.kind)).toEqual(['blank', 'half'])
  })

  test('steel of another job fills nothing here', () => {
    const blank = benchCuts(old.run, old.on, []).find(({ product }) => product.id === 'A1.b')!
    const left = madeBy(blank, 'd:1', old.on, []).map((one) => ({ ...one, job: 'other' }))
    expect(doneOf(benchCuts(rest.run, rest.on, left, 'job'))).toEqual([])
  })
})

test('in whatever order the possible cuts are made, all ends done, nothing spare and each parent used once (60 orders)', () => {
  const parts = [side, leg, part({ mark: 'B', length: 404, ends: [30, 45] })]
  const { run, on } = workOn(parts, [
    ['L', 'A', 'B', 'A'],
    ['B', 'L', 'A'],
  ])
  const wanted = parts.map((of) => ({ ...of, count: { A: 3, L: 2, B: 2 }[of.mark]! }))
  fc.assert(
    fc.property(fc.array(fc.nat(), { minLength: 40, maxLength: 40 }), (picks) => {
      const left = [...picks]
      const made = workThrough(run, on, (cuts) => {
        const ids = new Set(cuts.map(({ product }) => product.id))
        const open = cuts.filter(
          ({ done, parent, loaded }) => done === undefined && (parent !== undefined || !ids.has(loaded)),
        )
        return open[(left.shift() ?? 0) % Math.max(1, open.length)]
      })
      const cuts = benchCuts(run, on, made)
      expect(cuts.every(({ done }) => done !== undefined)).toBe(true)
      expect(made).toHaveLength(cuts.length)
      expect(new Set(cuts.map(({ done }) => done)).size).toBe(cuts.length)
      expect(sparesOf(cuts, made, { id: 'job', parts: wanted, quantity: 1 })).toEqual([])
      const parents = cuts.flatMap(({ parent }) => parent ?? [])
      expect(new Set(parents).size).toBe(parents.length)
    }),
    { numRuns: 60, seed: 4 },
  )
})
