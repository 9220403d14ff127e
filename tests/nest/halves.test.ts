import { describe, expect, test } from 'vitest'
import { checkCertificate } from '../../src/core/check/certificate.ts'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type { NestProblem, NestSection, StockLength } from '../../src/core/nest.ts'
import { solve } from '../../src/nest/solve.ts'
import { type Dice, dice } from '../prove/seed.ts'
import { drop, mill, part, problem } from './stock.ts'

/** Halves of sticks of `of`, the cut taking 3 mm and its price in that of the stick. */
const half = (of: number, price?: number): StockLength =>
  mill((of - 3) / 2, { halfOf: of, ...(price !== undefined && { price }) })

function solved(given: NestProblem) {
  const result = solve(given, { steps: 20_000_000 })
  if (!result.ok) throw new Error(result.problems[0]?.text)
  return result.value
}

const faultsOf = (given: NestProblem, section: NestSection) =>
  checkNest({ version: 1, id: 'x', solver: 'x', jobs: ['job-1'], sections: [section] }, [given]).faults

describe('sticks delivered cut in half', () => {
  const three = problem([part(2900, 3)], [half(6000, 4500)], { kerf: 2.5, trim: 10 })

  test('three pieces of 2900 in halves of 2998.5: two sticks are paid, the third half bears the second price', () => {
    const { nest } = solved(three)
    expect(nest.sticks.map(({ length, price, halfOf }) => [length, price, halfOf])).toEqual([
      [2998.5, 4500, 6000],
      [2998.5, 0, 6000],
      [2998.5, 4500, 6000],
    ])
    expect([nest.cost, nest.bound, nest.proved]).toEqual([9000, 9000, true])
    expect(faultsOf(three, nest)).toEqual([])
  })

  test('without prices the length of whole sticks is what it costs: 12 000 mm', () => {
    const { nest } = solved({ ...three, stock: [half(6000)] })
    expect([nest.cost, nest.proved]).toEqual([12_000, true])
  })

  test('a half too many that is not paid, one paid twice, and halves too long for their stick are refused', () => {
    const { nest } = solved(three)
    const [first, second, third] = nest.sticks as [
      NestSection['sticks'][0],
      NestSection['sticks'][0],
      NestSection['sticks'][0],
    ]
    const unpaid = { ...nest, sticks: [first, second, { ...third, price: 0 }], cost: 4500, bound: 4500 }
    expect(faultsOf(three, unpaid).join()).toMatch(/3 halves of 6000 mm are 2 sticks; 1 of them are paid/)
    const twice = { ...nest, sticks: [first, { ...second, price: 4500 }, third], cost: 13_500 }
    expect(faultsOf(three, twice).join()).toMatch(/3 of them are paid/)
    const long = { ...three, stock: [{ ...half(6000, 4500), length: 3001 }] }
    expect(faultsOf(long, { ...nest, stock: long.stock }).join()).toMatch(/longer than the 6000 mm/)
  })

  test('a proof by single halves goes up to whole pairs, and no further', () => {
    const { certificate } = solved(three)
    // In half cents: three halves are 13 500 by themselves; two whole sticks 18 000.
    expect(checkCertificate(three, certificate!, 18_000, [4500], 'in pairs')).toBe('holds')
    expect(checkCertificate(three, certificate!, 18_001, [4500], 'in pairs')).not.toBe('holds')
    expect(checkCertificate(three, certificate!, 18_000, [4500])).not.toBe('holds')
  })

  test('30 small problems cost what trying every plan costs', () => {
    const roll = dice('halves', 1)
    let proved = 0
    for (let time = 0; time < 30; time += 1) {
      const given = small(roll)
      const { nest } = solved(given)
      expect(faultsOf(given, nest), JSON.stringify(given)).toEqual([])
      const least = leastPaid(given)
      expect(nest.cost, JSON.stringify(given)).toBeGreaterThanOrEqual(least)
      if (!nest.proved) continue
      proved += 1
      expect(nest.cost, JSON.stringify(given)).toBe(least)
    }
    expect(proved).toBeGreaterThanOrEqual(24)
  })
})

function small(roll: Dice): NestProblem {
  const parts = Array.from({ length: roll.whole(1, 3) }, (_, at) =>
    part(roll.whole(200, 2400), roll.whole(1, 2), { mark: `M${at}-`, key: `key ${at}` }),
  )
  const stock = [
    half(6000, roll.whole(4000, 4600)),
    ...(roll() < 0.5 ? [half(7500, roll.whole(5000, 5600))] : []),
  ]
  const drops = roll() < 0.3 ? [drop(roll.whole(500, 2500), 'R1', { price: 0 })] : []
  return problem(parts, [...stock, ...drops])
}

/** Every way to put the pieces on sticks; kerf, trim and grip are 0, so that lengths alone decide. */
function leastPaid({ parts, stock }: NestProblem): number {
  const pieces = parts.flatMap(({ mid, count }) => Array.from({ length: count }, () => mid))
  let least = Number.POSITIVE_INFINITY
  const open: { kind: number; left: number }[] = []
  const place = (at: number): void => {
    const piece = pieces[at]
    if (piece === undefined) {
      const cost = stock.reduce((sum, { price = 0, halfOf }, kind) => {
        const used = open.filter((stick) => stick.kind === kind).length
        return sum + price * (halfOf === undefined ? used : Math.ceil(used / 2))
      }, 0)
      least = Math.min(least, cost)
      return
    }
    for (const stick of open) {
      if (stick.left < piece - 1e-9) continue
      stick.left -= piece
      place(at + 1)
      stick.left += piece
    }
    for (const [kind, { length, count }] of stock.entries()) {
      const used = open.filter((stick) => stick.kind === kind).length
      if (length < piece || used >= (count ?? Number.POSITIVE_INFINITY)) continue
      open.push({ kind, left: length - piece })
      place(at + 1)
      open.pop()
    }
  }
  place(0)
  return least
}
