import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type { NestProblem, NestSection } from '../../src/core/nest.ts'
import { type Solved, solve } from '../../src/nest/solve.ts'
import { asPieces, asShop, leastOfAll } from './every-plan.ts'
import { drop, mill, mitered, part, problem } from './stock.ts'

const steps = 20_000_000

function solved(given: NestProblem, budget = steps): Solved {
  const result = solve(given, { steps: budget })
  if (!result.ok) throw new Error(result.problems.map(({ text }) => text).join(' '))
  return result.value
}

const asNest = (section: NestSection) => ({
  version: 1 as const,
  id: 'test',
  solver: 'test',
  jobs: ['job-1'],
  sections: [section],
})

const refusal = (given: NestProblem): string => {
  const result = solve(given, { steps })
  return result.ok ? 'solved' : result.problems.map(({ text }) => text).join(' ')
}

// Figures of this block: the rule "Fits" of design.md 7, worked by hand.
describe('what a stick gives', () => {
  test('a 6000 stick with trim 10 and grip 0 gives 5980.0 mm, not 5980.1', () => {
    const on = (mid: number) => problem([part(mid, 1)], [mill(6000)], { kerf: 2.5, trim: 10 })
    expect(solved(on(5980)).nest.sticks).toHaveLength(1)
    expect(refusal(on(5980.1))).toMatch(/needs 5980\.1 mm; a stick of 6000 mm gives the most, 5980 mm/)
  })

  test('a 1000 drop with cut ends, grip 60 and kerf 2.5 gives 937.5 mm, not 937.6', () => {
    const on = (mid: number) => problem([part(mid, 1)], [drop(1000, 'R1')], { kerf: 2.5, grip: 60 })
    expect(solved(on(937.5)).nest.sticks[0]).toMatchObject({ from: 'rack', rack: 'R1', drop: 60 })
    expect(refusal(on(937.6))).toMatch(/gives the most, 937\.5 mm/)
  })

  test('a rack piece of 1000 with cut ends is a part of 1000 as it lies there, whatever the grip', () => {
    const [stick] = solved(problem([part(1000, 1)], [drop(1000, 'R1')], { kerf: 2.5, grip: 60 })).nest.sticks
    expect(stick).toMatchObject({ rack: 'R1', drop: 0 })
    expect(stick?.pieces[0]?.ends.map(({ x }) => x)).toEqual([1000, 0])
    expect(refusal(problem([part(999.9, 1)], [drop(1000, 'R1')], { kerf: 2.5, grip: 60 }))).toMatch(/937\.5/)
    const mills = drop(1000, 'R1', { ends: ['mill', 'cut'] })
    expect(refusal(problem([part(1000, 1)], [mills], { kerf: 2.5, trim: 10, grip: 60 }))).toMatch(/927\.5/)
  })

  test('twelve parts of 19 63/64 in and eleven kerfs of 1/64 fill 239 63/64 in exactly; one step less does not do', () => {
    const inch = 25.4
    const parts = [part((19 + 63 / 64) * inch, 12)]
    const kerf = inch / 64
    const full = solved(problem(parts, [mill((239 + 63 / 64) * inch)], { kerf })).nest
    expect([full.sticks.length, full.sticks[0]?.drop]).toEqual([1, 0])
    expect(
      solved(problem(parts, [mill((239 + 63 / 64) * inch - 1 / 1600)], { kerf })).nest.sticks,
    ).toHaveLength(2)
  })

  test('a cut end costs no kerf: two parts of 498.75 and one kerf of 2.5 use up a drop of 1000', () => {
    const on = (mid: number) => solve(problem([part(mid, 2)], [drop(1000, 'R1')], { kerf: 2.5 }), { steps })
    const full = on(498.75)
    expect(full.ok && full.value.nest.sticks[0]?.drop).toBe(0)
    const more = on(498.76)
    expect(more.ok && more.value.unplaced).toEqual([1])
  })

  test('a trapezoid of 5980 long point fits a 6000 stick with trim 10, not one of 5980.1', () => {
    const on = (length: number) =>
      problem([mitered(40, length, [30, 30], 1)], [mill(6000)], {
        trim: 10,
        kerf: 2.5,
        way: 'from the stick',
      })
    expect(solved(on(5980)).nest.sticks).toHaveLength(1)
    expect(refusal(on(5980.1))).toMatch(/gives the most/)
  })
})

describe('what is refused', () => {
  test('a clean-up cut of 2 with a kerf of 2.5; 0 and 2.5 are taken', () => {
    const on = (trim: number) => refusal(problem([part(500, 1)], [mill(6000)], { kerf: 2.5, trim }))
    expect(on(2)).toMatch(/clean-up cut is 2 mm.*kerf of 2\.5 mm/)
    expect([on(0), on(2.5)]).toEqual(['solved', 'solved'])
  })

  test('a price on one of two lengths to be bought, or a part of a cent', () => {
    const parts = [part(500, 1)]
    expect(refusal(problem(parts, [mill(6000, { price: 4000 }), mill(3000)]))).toMatch(/1 of 2 stock lengths/)
    expect(refusal(problem(parts, [mill(6000, { price: 40.5 })]))).toMatch(/whole cents/)
  })

  test.each([
    ['no part', problem([], [mill(6000)]), /no part/],
    ['no stock', problem([part(500, 1)], []), /no stock/],
    ['a length of 0', problem([part(0, 1)], [mill(6000)]), /length of 0 mm/],
    ['a length that is no number', problem([part(Number.NaN, 1)], [mill(6000)]), /length of NaN/],
    ['half a piece', problem([part(500, 1.5)], [mill(6000)]), /1\.5 times/],
    ['a negative kerf', problem([part(500, 1)], [mill(6000)], { kerf: -1 }), /kerf is -1/],
    ['stock that is all gone', problem([part(500, 1)], [mill(6000, { count: 0 })]), /there is no stick/],
    [
      'ends that meet: 60° both ways on 40 mm leave nothing of 138.5 mm',
      problem([mitered(40, 138.5, [60, 60], 1)], [mill(6000)]),
      /no steel on its short side/,
    ],
  ])('%s', (_, given, words) => expect(refusal(given)).toMatch(words))

  test('every part that fits no stick is named, nothing is left out in silence', () => {
    const parts = [part(6400, 1, { mark: 'A' }), part(100, 1, { mark: 'B' }), part(7000, 2, { mark: 'C' })]
    const result = solve(problem(parts, [mill(6000), mill(3000)], { trim: 10, kerf: 2.5 }), { steps })
    expect(result.ok).toBe(false)
    expect(!result.ok && result.problems.map(({ text }) => text)).toEqual([
      'Part A needs 6400 mm; a stick of 6000 mm gives the most, 5980 mm.',
      'Part C needs 7000 mm; a stick of 6000 mm gives the most, 5980 mm.',
    ])
  })
})

describe('least cost', () => {
  test('prices 60 and 48: a relaxed cost between two sums of prices goes up to the next, and is proved', () => {
    // By hand: 13 parts of 150 in sticks of 600 (four) and 470 (three): 3 × 600 + 1 × 470 hold 15 for 228,
    // 2 × 600 + 2 × 470 hold 14 for 216, 1 × 600 + 3 × 470 hold 13 for 204, 0 + 5 × 470 cost 240.
    const given = problem([part(150, 13)], [mill(600, { price: 60 }), mill(470, { price: 48 })])
    expect(solved(given)).toMatchObject({ provedSticks: true, nest: { cost: 204, bound: 204, proved: true } })
  })

  test('rack pieces are worth 0: a drop of 700 saves the second stick', () => {
    const parts = [part(600, 1), part(900, 1)]
    const without = solved(problem(parts, [mill(1000)])).nest
    const withDrop = solved(problem(parts, [mill(1000), drop(700, 'R1')])).nest
    expect([without.cost, withDrop.cost]).toEqual([2000, 1000])
    expect(withDrop.sticks.map(({ rack }) => rack)).toContain('R1')
  })

  test('a rack piece is used once: two parts of 600 and one drop of 700 open a stick', () => {
    const nest = solved(problem([part(600, 2)], [mill(1000), drop(700, 'R1', {})])).nest
    expect(nest.sticks.map(({ from }) => from).sort()).toEqual(['buy', 'rack'])
  })

  test('of plans of the same cost the one with fewer sticks: no free drop is opened in vain', () => {
    const stock = [mill(1000), drop(450, 'R1'), drop(450, 'R2')]
    const { nest, provedSticks } = solved(problem([part(400, 1), part(500, 1)], stock))
    expect([nest.cost, nest.sticks.length, provedSticks]).toEqual([1000, 1, true])
  })

  test('what is left is one long drop: 3 × 300 and 100 on two sticks of 650 leave 350, not 250 and 50', () => {
    const nest = solved(problem([part(300, 3), part(50, 1)], [mill(650)])).nest
    expect(nest.sticks.map(({ drop: left }) => left).sort((a, b) => a - b)).toEqual([0, 350])
  })

  test('counted stock that runs out: what fits is cut, the rest is named, nothing is called proved', () => {
    const { nest, unplaced, certificate } = solved(
      problem([part(600, 3, { mark: 'A' })], [mill(1000, { count: 2 })]),
    )
    expect([nest.sticks.length, unplaced, nest.proved, certificate]).toEqual([2, [1], false, undefined])
  })

  test('without steps left a usable nest still comes, and is not called proved', () => {
    const parts = Array.from({ length: 40 }, (_, at) => part(301 + 7 * at, 3))
    const { nest, ended } = solved(problem(parts, [mill(6000)], { kerf: 2.5 }), 1)
    expect(ended).toBe(true)
    expect(nest.proved).toBe(false)
    expect(checkNest(asNest(nest)).faults).toEqual([])
  })

  test('the same problem and steps give the same nest, and a stop leaves the best so far', () => {
    const parts = Array.from({ length: 25 }, (_, at) => part(333 + 61 * at, 2))
    const given = problem(parts, [mill(6000), mill(6500)], { kerf: 2.5, trim: 10 })
    expect(solved(given).nest).toEqual(solved(given).nest)
    const stopped = solve(given, { steps, stop: () => true })
    expect(stopped.ok && stopped.value.nest.sticks.length).toBeGreaterThanOrEqual(
      solved(given).nest.sticks.length,
    )
  })

  test('each better nest is told, complete and cheaper or on fewer sticks than the last', () => {
    const told: NestSection[] = []
    const parts = Array.from({ length: 30 }, (_, at) => part(20 + ((at * 37) % 81), 2, { mark: `P${at}-` }))
    const result = solve(problem(parts, [mill(150)]), { steps, better: (nest) => told.push(nest) })
    expect(told.length).toBeGreaterThan(0)
    for (const nest of told) expect(checkNest(asNest(nest)).faults).toEqual([])
    const scores = told.map(({ cost, sticks }) => cost * 1000 + sticks.length)
    expect(scores).toEqual([...scores].sort((a, b) => b - a))
    expect(new Set(scores).size).toBe(scores.length)
    expect(result.ok && result.value.nest.cost).toBe(told.at(-1)?.cost)
  })
})

describe('names and places on the sticks', () => {
  const given = problem(
    [
      part(700, 4, { mark: 'A', perCopy: 2, first: 3 }),
      part(500, 2, { mark: 'B', perCopy: 1, finished: true }),
    ],
    [mill(3000)],
    { kerf: 2.5, trim: 10 },
  )
  const [first, second] = solved(given).nest.sticks

  test('longest first from the leading end: clean-up 10, then pieces and kerfs, the drop behind the last kerf', () => {
    expect(first?.pieces.map(({ piece }) => piece)).toEqual(['A3', 'A4', 'A5', 'A6'])
    // By hand: 3000 − 10 = 2990, 700 each, kerf 2.5 between; 182.5 are left and the last kerf leaves 180.
    expect(first?.pieces.map(({ ends }) => ends.map(({ x }) => x))).toEqual([
      [2990, 2290],
      [2287.5, 1587.5],
      [1585, 885],
      [882.5, 182.5],
    ])
    expect(first?.drop).toBe(180)
    expect(second?.pieces.map(({ piece }) => piece)).toEqual(['B1', 'B2'])
  })

  test('numbers go on from `first`, two to a copy; a blank has its own name, a finished piece none', () => {
    expect(first?.pieces.map(({ copy }) => copy)).toEqual([2, 2, 3, 3])
    expect(first?.pieces.map(({ blank }) => blank)).toEqual(['A3.b', 'A4.b', 'A5.b', 'A6.b'])
    expect(second?.pieces.map(({ blank, copy }) => [blank, copy])).toEqual([
      [undefined, 1],
      [undefined, 2],
    ])
  })
})

// Thirty pieces of five hexagon frames, 700 mm across flats in 40 tube: figures of design.md 6, by formula.
describe('shared miters', () => {
  const hexagons = (turns: NestProblem['parts'][number]['turns']) =>
    solved(
      problem([mitered(40, 404, [30, 30], 30, turns)], [mill(6000)], {
        kerf: 2.5,
        trim: 10,
        way: 'from the stick',
      }),
    )

  test('turned over one after the other, fifteen need 5777.1 mm between the clean-up cuts: 2 sticks, proved', () => {
    const { nest, provedSticks } = hexagons(['none', 'over', 'end', 'flip'])
    expect([nest.sticks.length, nest.proved, provedSticks]).toEqual([2, true, true])
    expect(checkNest(asNest(nest)).faults).toEqual([])
    for (const { pieces } of nest.sticks) {
      const wedge = 20 * Math.tan(Math.PI / 6)
      expect(pieces[0]!.ends[0].x - pieces.at(-1)!.ends[1].x + 2 * wedge).toBeCloseTo(5777.1, 1)
    }
  })

  test('seam pinned underneath (end for end only): 2 sticks; pinned outside (flip only): 3, proved: every two ends are two cuts apart', () => {
    expect(hexagons(['none', 'end']).nest.sticks).toHaveLength(2)
    const outside = hexagons(['none', 'flip']).nest
    expect([outside.sticks.length, outside.proved]).toEqual([3, true])
    expect(checkNest(asNest(outside)).faults).toEqual([])
  })

  test('square first: 404 and a kerf of 2.5 each, fourteen to a stick, 3 sticks, proved', () => {
    const { nest } = solved(problem([part(404, 30)], [mill(6000)], { kerf: 2.5, trim: 10 }))
    expect([nest.sticks.length, nest.proved]).toEqual([3, true])
  })
})

describe('pieces that come from one stick', () => {
  const two = [mill(1500, { price: 15 }), mill(3000, { price: 40 })]

  test('four of 600 cost 40 on one stick of 3000, and 30 on two of 1500 where they need not stay together', () => {
    const apart = problem([part(600, 4)], two)
    const together = problem([part(600, 4, { same: 'grain' })], two)
    expect([solved(apart).nest.cost, solved(together).nest.cost]).toEqual([30, 40])
    expect(solved(together).nest.proved).toBe(true)
    // The judge: pieces of two sticks are no pieces of one.
    const { nest } = solved(apart)
    const wanted = { ...nest, proved: false, bound: 0, demand: together.parts }
    expect(checkNest(asNest(wanted), [together]).faults).toEqual([
      'pieces of M600 are wanted from one stick (grain); they come from S1, S2',
    ])
    // And a plan that forgets the wish is not the plan that is wanted.
    expect(checkNest(asNest(nest), [together]).faults).not.toEqual([])
  })

  test('a group of several parts, next to pieces that may lie anywhere', () => {
    const parts = [part(900, 1, { same: 'rail' }), part(500, 2, { same: 'rail' }), part(1000, 2)]
    const { nest } = solved(problem(parts, [mill(2000)]))
    const rail = nest.sticks.filter(({ pieces }) => pieces.some(({ mark }) => mark !== 'M1000'))
    expect([nest.sticks.length, rail.length, rail[0]?.pieces.length, nest.proved]).toEqual([2, 1, 3, true])
  })

  // What fills a stick: 6000 less two clean-up cuts, and no kerf behind the last piece, 5982.5 with it. The pieces with
  // their kerfs are 221,250 mm, 36.98 sticks of it.
  test('three wishes in each of 50 copies, beside 150 pieces: 37 sticks, fewer cannot hold the steel', () => {
    const wishes = [
      [part(540, 1), part(390, 1)],
      [part(380, 1), part(520, 2)],
      [part(580, 1), part(670, 1)],
    ]
    const copies = Array.from({ length: 50 }, (_, copy) =>
      wishes.flatMap((wish, at) =>
        wish.map((each) => ({ ...each, same: `${at}/${copy}`, first: copy * each.count + 1 })),
      ),
    )
    const parts = [...copies.flat(), part(280, 50), part(260, 100)]
    const given = problem(parts, [mill(6000)], { kerf: 2.5, trim: 10 })
    const steel = given.parts.reduce((sum, { mid, count }) => sum + count * (mid + 2.5), 0)
    expect([steel, Math.ceil(steel / 5982.5)]).toEqual([221_250, 37])
    const { nest, provedSticks } = solved(given)
    expect([nest.sticks.length, nest.proved, provedSticks]).toEqual([37, true, true])
    expect(checkNest(asNest(nest), [given]).faults).toEqual([])
  })

  test('a group that no stick holds is refused in words, with what it needs', () => {
    const given = problem([part(600, 4, { same: 'grain' })], [mill(2400)], { kerf: 2.5, trim: 10 })
    const result = solve(given, { steps })
    expect(result.ok ? [] : result.problems.map(({ text }) => text)).toEqual([
      '4 × M600 are to come from one stick and need 2427.5 mm of it; the longest is 2400 mm.',
    ])
  })
})

describe('properties', () => {
  const lengths = fc.integer({ min: 10, max: 98 }).map((tens) => tens * 10)
  const small = fc.record({
    mids: fc.uniqueArray(lengths, { minLength: 1, maxLength: 4 }),
    counts: fc.array(fc.integer({ min: 1, max: 2 }), { minLength: 4, maxLength: 4 }),
    kerf: fc.constantFrom(0, 2.5, 4),
    stick: fc.constantFrom(1000, 1300, 2400),
  })
  const of = ({ mids, counts }: { mids: number[]; counts: number[] }) =>
    mids.map((mid, at) => part(mid, counts[at]!, { mark: 'ABCD'[at]! }))

  test('up to 8 square pieces: cost and sticks are the least of all plans, and the judge finds no fault', () => {
    fc.assert(
      fc.property(small, fc.boolean(), (shape, racked) => {
        const stock = [mill(shape.stick), ...(racked ? [drop(640, 'R1')] : [])]
        const given = problem(of(shape), stock, { kerf: shape.kerf })
        const least = leastOfAll(asShop(given), asPieces(given.parts))
        const { nest } = solved(given)
        expect([nest.cost, nest.sticks.length]).toEqual([least?.cost, least?.sticks])
        expect(checkNest(asNest(nest), [given]).faults).toEqual([])
      }),
      { numRuns: 60 },
    )
  })

  test('pieces that come from one stick: the least of all plans that keep them together', () => {
    fc.assert(
      fc.property(small, fc.integer({ min: 1, max: 15 }), (shape, chosen) => {
        const parts = of(shape).map((each, at) => (chosen & (1 << at) ? { ...each, same: 'grain' } : each))
        const given = problem(parts, [mill(shape.stick), mill(2600)], { kerf: shape.kerf })
        const least = leastOfAll(asShop(given), asPieces(given.parts))
        const answer = solve(given, { steps })
        expect(answer.ok).toBe(least !== undefined)
        if (!answer.ok) return
        const { nest } = answer.value
        expect([nest.cost, nest.sticks.length]).toEqual([least?.cost, least?.sticks])
        expect(checkNest(asNest(nest), [given]).faults).toEqual([])
      }),
      { numRuns: 40 },
    )
  })

  test('copies that each keep alike pieces on a stick of their own: the least of all plans that do', () => {
    fc.assert(
      fc.property(small, fc.integer({ min: 1, max: 3 }), fc.boolean(), (shape, copies, slanted) => {
        const [first, second, ...others] = of(shape)
        const wish = (second ? [first!, second] : [{ ...first!, count: 2 }]).map((each) =>
          slanted ? { ...mitered(40, each.mid, [45, 45], 1), mark: each.mark } : { ...each, count: 1 },
        )
        const parts = Array.from({ length: copies }, (_, copy) =>
          wish.map((each) => ({ ...each, perCopy: 1, first: copy + 1, same: `copy ${copy}` })),
        )
        const given = problem(
          [...parts.flat(), ...(slanted ? [] : others.slice(0, 1))],
          [mill(shape.stick), mill(2600)],
          {
            kerf: shape.kerf,
          },
        )
        const least = leastOfAll(asShop(given), asPieces(given.parts))
        const answer = solve(given, { steps })
        expect(answer.ok).toBe(least !== undefined)
        if (!answer.ok) return
        const { nest } = answer.value
        expect(nest.bound).toBeLessThanOrEqual(least!.cost)
        expect([nest.cost, nest.sticks.length]).toEqual([least?.cost, least?.sticks])
        expect(checkNest(asNest(nest), [given]).faults).toEqual([])
      }),
      { numRuns: 40 },
    )
  })

  test('a longer stick never needs more of them, more kerf never costs less, a drop never raises the cost', () => {
    fc.assert(
      fc.property(small, lengths, (shape, more) => {
        const on = (stick: number, kerf: number, racked: boolean) =>
          solved(problem(of(shape), [mill(stick), ...(racked ? [drop(more, 'R1')] : [])], { kerf })).nest
        const plain = on(shape.stick, shape.kerf, false)
        expect(on(shape.stick + more, shape.kerf, false).sticks.length).toBeLessThanOrEqual(
          plain.sticks.length,
        )
        expect(on(shape.stick, shape.kerf, true).cost).toBeLessThanOrEqual(plain.cost)
        if (shape.stick > 1000)
          expect(on(shape.stick, shape.kerf + 5, false).cost).toBeGreaterThanOrEqual(plain.cost)
      }),
      { numRuns: 40 },
    )
  })

  test('the order of parts and stock does not change the cost', () => {
    fc.assert(
      fc.property(small, (shape) => {
        const stock = [mill(shape.stick, { price: 500 }), mill(1100, { price: 420 }), drop(720, 'R1')]
        const there = solved(problem(of(shape), stock, { kerf: shape.kerf })).nest
        const back = solved(problem(of(shape).reverse(), [...stock].reverse(), { kerf: shape.kerf })).nest
        expect([back.cost, back.sticks.length]).toEqual([there.cost, there.sticks.length])
      }),
      { numRuns: 40 },
    )
  })
})
