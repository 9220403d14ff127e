import { hasPrices } from '../core/buy/bars.ts'
import { deliveredStock } from '../core/buy/halves.ts'
import { boughtLength, wholeSticks } from '../core/buy/whole-sticks.ts'
import type { NestProblem, NestSection, StockLength } from '../core/nest.ts'
import { carriedOf } from '../core/parts/demand.ts'
import { type Section, sectionKey } from '../core/section/section.ts'
import type { Shop } from '../core/shop.ts'
import { sameLength } from '../core/tolerance.ts'
import type { Mm } from '../core/units.ts'
import { type Desk, searchWords } from './desk.ts'
import { asked } from './view.ts'

// What other stock would have meant: nests that nobody works by, looked for when the person asks.

/** One other way to buy, and what it comes to. */
export interface WhatIf {
  readonly section: Section
  /** Only sticks of this length, with what lies on the rack; absent: as offered, but nothing from the rack. */
  readonly length?: Mm
  /** Sticks delivered cut in half, or whole where they are now in halves. */
  readonly cut?: 'in half' | 'not'
  readonly comes: Comes | { readonly not: string }
}

export interface Comes {
  /** Sticks that are bought. */
  readonly sticks: number
  /** Length bought, mm. */
  readonly bought: Mm
  /** Whole cents; absent where a length that is bought has no price. */
  readonly cents?: number
  readonly proved: boolean
}

export interface Compared {
  /** The demand that it answers, as text. */
  readonly asked: string
  readonly working: boolean
  readonly rows: readonly WhatIf[]
}

/** A comparison is a figure to decide by, not a nest to cut by: it need not be pressed to the last proof. */
export const budget = { steps: 12_000_000, seconds: 4 } as const

/** Lengths shorter by less than this are the same offer. */
const same = (one: Mm, two: Mm) => Math.abs(one - two) <= sameLength

/**
 * Solves, in the worker, the demand of a job without the rack, and with each length that the section is carried or
 * usually bought in alone. Ends early when a job's own nest is looked for, and then says nothing.
 */
export async function compare(desk: Desk, id: string): Promise<void> {
  const { views, shop } = desk.store.getState()
  const demand = views[id]?.wanted ?? views[id]?.plan?.demand
  if (!demand || demand.length === 0) return
  desk.comparing?.()
  const question = asked(demand)
  let over = false
  let running: { readonly stop: () => void } | undefined
  const drop = () => {
    over = true
    running?.stop()
  }
  desk.comparing = drop
  const rows: WhatIf[] = []
  const tell = (working: boolean) => {
    const { compared } = desk.store.getState()
    desk.store.setState({
      compared: { ...compared, [id]: { asked: question, working, rows: [...rows] } },
    })
  }
  tell(true)
  for (const { problem, what } of questions(demand, shop)) {
    if (over) break
    try {
      const solving = desk.ports.solver.solve(problem, () => undefined, budget)
      running = solving
      const section = await solving.done
      if (!over) rows.push({ ...what, comes: comesTo(section, demand, what.cut !== undefined) })
    } catch (error) {
      if (!over) rows.push({ ...what, comes: { not: searchWords(error, shop.reading) } })
    }
    if (!over) tell(true)
  }
  if (over) {
    const { [id]: _half, ...others } = desk.store.getState().compared ?? {}
    desk.store.setState({ compared: others })
  } else tell(false)
  if (desk.comparing === drop) desk.comparing = null
}

interface Question {
  readonly problem: NestProblem
  readonly what: Omit<WhatIf, 'comes'>
}

function questions(demand: readonly NestProblem[], shop: Shop): readonly Question[] {
  return demand.flatMap((problem) => {
    const { section, stock } = problem
    const bought = stock.filter(({ rack }) => rack === undefined)
    const rack = stock.filter((one) => one.rack !== undefined)
    // Whole sticks only: what half of another length would do follows from the first of these rows.
    const halved = bought.some(({ halfOf }) => halfOf !== undefined)
    const lengths = halved ? [] : lengthsOf(bought, shop)
    const only = bought.length === 1 ? bought[0]!.length : undefined
    return [
      ...(rack.length > 0 ? [{ problem: { ...problem, stock: bought }, what: { section } }] : []),
      ...otherCut(problem, shop, rack),
      ...lengths
        .filter((length) => only === undefined || !same(only, length))
        .map((length): Question => {
          const ends = bought[0]?.ends ?? (['mill', 'mill'] as const)
          return {
            problem: { ...problem, stock: [{ length, ends }, ...rack] },
            what: { section, length },
          }
        }),
    ]
  })
}

/** Lengths that the section is offered or usually bought in, each once. */
const lengthsOf = (bought: readonly StockLength[], { usualLengths }: Shop): readonly Mm[] =>
  [...bought.map(({ length }) => length), ...usualLengths]
    .filter((length, at, all) => all.findIndex((one) => same(one, length)) === at)
    .sort((one, two) => one - two)

/** The same with sticks delivered cut in half, or whole, whichever it is not now; only where the shop knows the cut. */
function otherCut(problem: NestProblem, shop: Shop, rack: readonly StockLength[]): readonly Question[] {
  const { section } = problem
  const carried = carriedOf(shop, section)
  if (!carried?.inHalves || carried.stock.length === 0) return []
  const wanted = !carried.inHalves.wanted
  const ends = problem.stock.find((one) => one.rack === undefined)?.ends ?? (['mill', 'mill'] as const)
  const stock = deliveredStock({ ...carried, inHalves: { ...carried.inHalves, wanted } })
  return [
    {
      problem: { ...problem, stock: [...stock.map((one) => ({ ...one, ends })), ...rack] },
      what: { section, cut: wanted ? 'in half' : 'not' },
    },
  ]
}

/** Prices are those of the demand, or the nest's own: a length that is only usual has none. */
function comesTo(
  { section, sticks, proved, cost, stock }: NestSection,
  demand: readonly NestProblem[],
  ownPrices: boolean,
): Comes {
  const key = sectionKey(section)
  if (ownPrices || sticks.some(({ halfOf }) => halfOf !== undefined)) {
    const all = sticks.filter(({ from }) => from === 'buy')
    return {
      sticks: wholeSticks(all),
      bought: boughtLength(all),
      ...(hasPrices({ stock }) ? { cents: cost } : {}),
      proved,
    }
  }
  const offered = demand.find((problem) => sectionKey(problem.section) === key)?.stock ?? []
  const bought = sticks.filter(({ from }) => from === 'buy')
  const prices = bought.map(({ length }) => priceOf(offered, length))
  const known = prices.filter((price) => price !== undefined)
  return {
    sticks: bought.length,
    bought: bought.reduce((sum, { length }) => sum + length, 0),
    ...(known.length === prices.length && known.length > 0
      ? { cents: known.reduce((sum, price) => sum + price, 0) }
      : {}),
    proved,
  }
}

const priceOf = (offered: readonly StockLength[], of: Mm): number | undefined =>
  offered.find(({ rack, length }) => rack === undefined && same(length, of))?.price
