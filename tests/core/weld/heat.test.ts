import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { plan } from '../../../src/core/plan.ts'
import { bestOrder } from '../../../src/core/weld/best-order.ts'
import { heats, nearness, usualHeat } from '../../../src/core/weld/heat.ts'
import { heatPlan, heatQuestion } from '../../../src/core/weld/heat-plan.ts'
import { weldPlan } from '../../../src/core/weld/order.ts'
import { alongSteel } from '../../../src/core/weld/steel-graph.ts'
import { dice } from '../../prove/seed.ts'
import { framed, inches, metric, tube } from '../builds/framed.ts'

const polygon = (n: number, change = {}) =>
  framed('polygon-frame', { sides: n, size: 700, section: tube(40, 3) }, { ...metric, ...change })

// ------------------------------------------- the index again, from the document alone and by other code

/** Distance along the edges by relaxing every edge until nothing changes (Bellman and Ford). */
function reckoned({ graph, seams, model }: ReturnType<typeof heatPlan>, order: readonly string[]): number {
  const nodes = [...new Set(graph.edges.flatMap(({ a, b }) => [a, b]))]
  const ways = new Map<string, Map<string, number>>()
  for (const start of nodes) {
    const far = new Map(nodes.map((node) => [node, node === start ? 0 : Infinity]))
    for (let changed = true; changed; ) {
      changed = false
      for (const { a, b, length } of graph.edges)
        for (const [from, to] of [
          [a, b],
          [b, a],
        ] as const)
          if (far.get(from)! + length < far.get(to)!) {
            far.set(to, far.get(from)! + length)
            changed = true
          }
    }
    ways.set(start, far)
  }
  const edge = new Map(graph.edges.map((one) => [one.id, one]))
  const seam = new Map(seams.map((one) => [one.id, one]))
  const apart = (i: string, k: string): number => {
    const [one, two] = [seam.get(i)!, seam.get(k)!]
    const [e, f] = [edge.get(one.edge)!, edge.get(two.edge)!]
    return Math.min(
      e === f ? Math.abs(one.pos - two.pos) : Infinity,
      one.pos + ways.get(e.a)!.get(f.a)! + two.pos,
      one.pos + ways.get(e.a)!.get(f.b)! + f.length - two.pos,
      e.length - one.pos + ways.get(e.b)!.get(f.a)! + two.pos,
      e.length - one.pos + ways.get(e.b)!.get(f.b)! + f.length - two.pos,
    )
  }
  let worst = 0
  const ends: { id: string; end: number }[] = []
  let time = 0
  for (const id of order.filter((one) => seam.has(one))) {
    const preheat = ends.reduce(
      (sum, { id: before, end }) =>
        sum +
        seam.get(before)!.q * Math.exp(-apart(before, id) / model.L) * Math.exp(-(time - end) / model.tau),
      0,
    )
    worst = Math.max(worst, preheat)
    time += seam.get(id)!.minutes
    ends.push({ id, end: time })
    time += model.gap
  }
  return worst
}

const jobs = [
  ['hexagon', () => polygon(6)],
  ['octagon', () => polygon(8)],
  ['square', () => polygon(4)],
  ['frame with bars', () => framed('rect-frame', {}, metric)],
  ['four legs', () => framed('four-leg', {}, inches)],
  ['pedestal', () => framed('pedestal', { sides: 10 }, metric)],
  ['uneven', () => framed('uneven-frame', {}, metric)],
  ['from points', () => framed('from-points', {}, metric)],
  ['rack of 152 seams', () => framed('rack', {}, metric)],
] as const

describe.each(jobs)('the weld order of a %s', (_, make) => {
  const { frame, shop } = make()
  for (const passes of [undefined, 'inside last', 'balanced'] as const) {
    const weld = weldPlan(frame, passes ? { ...shop, passes } : shop)
    const heat = heatPlan(frame, weld)

    test(`${passes ?? 'usual passes'}: no hotter than going round, every seam once, as the document reckons`, () => {
      expect(heat.index).toBeLessThanOrEqual(heat.round + 1e-12)
      const passed = weld.order.filter((id) => !id.startsWith('turn:'))
      expect([...passed].sort()).toEqual(weld.seams.map(({ id }) => id).sort())
      expect(new Set(weld.steps.map(({ id }) => id)).size).toBe(weld.steps.length)
      expect(heat.index).toBeCloseTo(reckoned(heat, weld.order), 9)
      expect(heat.round).toBeCloseTo(reckoned(heat, weld.round), 9)
      // The classes follow as when one goes round: the order changes nothing but places within a class.
      const classes = new Map(
        weld.seams.map((seam) => [seam.id, `${seam.joint.split('/')[0]} ${seam.class}`]),
      )
      expect(passed.map((id) => classes.get(id)!.split(' ').slice(1).join(' '))).toEqual(
        weld.round.map((id) => classes.get(id)!.split(' ').slice(1).join(' ')),
      )
    })
  }
  test('every step says why, in one line', () => {
    for (const { why } of weldPlan(frame, shop).steps) expect(why).toMatch(/^[A-Z][^\n]+\.$/)
  })
})

describe('up to eight seams', () => {
  /** Every order of every block, one by one. */
  function* all(blocks: readonly (readonly number[])[]): Generator<readonly number[]> {
    const [block, ...rest] = blocks
    if (!block) return void (yield [])
    const permuted = function* (left: readonly number[]): Generator<readonly number[]> {
      if (left.length === 0) return void (yield [])
      for (const k of left) for (const tail of permuted(left.filter((one) => one !== k))) yield [k, ...tail]
    }
    for (const head of permuted(block)) for (const tail of all(rest)) yield [...head, ...tail]
  }

  test('none of all orders under the same classes is better, for 25 rolled pieces of steel', () => {
    const roll = dice('heat')
    for (let round = 0; round < 25; round++) {
      const n = roll.whole(2, 8)
      const edges = Array.from({ length: n }, (_, at) => ({
        id: `e${at}`,
        a: `n${at}`,
        b: `n${(at + 1) % n}`,
        length: roll.between(80, 500),
      }))
      const places = Array.from({ length: n }, () => {
        const { id, length } = roll.pick(edges)
        return { edge: id, pos: roll.between(0, length) }
      })
      const near = nearness(alongSteel(edges, places), usualHeat)
      const seams = places.map(() => ({ q: roll.between(0.2, 1), minutes: roll.between(0.05, 0.4) }))
      const cut = roll.whole(1, n)
      const numbers = Array.from({ length: n }, (_, at) => at)
      const blocks = [numbers.slice(0, cut), numbers.slice(cut)].filter((block) => block.length > 0)
      const asked = { seams, near, model: usualHeat }
      const best = bestOrder(blocks, asked)
      let least = Infinity
      for (const order of all(blocks)) least = Math.min(least, heats(order, seams, near, usualHeat).index)
      expect(best.index).toBeCloseTo(least, 12)
      expect(best.index).toBeLessThanOrEqual(best.round)
    }
  })
})

describe('the model', () => {
  test('two seams 150 mm and half a minute apart: q · e⁻¹ · e^−0.05', () => {
    const near = nearness(
      alongSteel(
        [{ id: 'e', a: 'a', b: 'b', length: 400 }],
        [
          { edge: 'e', pos: 100 },
          { edge: 'e', pos: 250 },
        ],
      ),
      usualHeat,
    )
    const { index } = heats(
      [0, 1],
      [0.8, 1].map((q) => ({ q, minutes: 0.2 })),
      near,
      usualHeat,
    )
    expect(index).toBeCloseTo(0.8 * Math.exp(-1) * Math.exp(-0.05), 12)
  })
  test('steel that is not joined passes no heat', () => {
    const edges = [
      { id: 'e', a: 'a', b: 'b', length: 400 },
      { id: 'f', a: 'c', b: 'd', length: 400 },
    ]
    const far = alongSteel(edges, [
      { edge: 'e', pos: 0 },
      { edge: 'f', pos: 0 },
    ])
    expect(far[1]).toBe(Infinity)
  })
  test('corners of a hexagon lie 381 mm of center line apart, round either way', () => {
    const { frame, shop } = polygon(6)
    const { seams } = weldPlan(frame, shop)
    const tops = seams.filter((seam) => seam.class === 'top')
    const asked = heatQuestion(frame, tops)
    const far = alongSteel(asked.edges, asked.places)
    const side = 2 * 330 * Math.tan(Math.PI / 6)
    expect(far[1]).toBeCloseTo(side, 6)
    expect(far[3]).toBeCloseTo(3 * side, 6)
    expect(far[5]).toBeCloseTo(side, 6)
  })
})

test('on eight sides the order gains: its index is below that of going round', () => {
  const { frame, shop } = polygon(8)
  const { index, round } = heatPlan(frame, weldPlan(frame, shop))
  expect(index).toBeLessThan(round)
})

test('a rack of more than 200 seams is ordered too: a fifth cooler than going round, each seam in its class', () => {
  const { frame, shop } = framed('rack', { tierCount: 7 }, metric)
  const weld = weldPlan(frame, shop)
  expect(weld.seams.length).toBeGreaterThan(200)
  const { index, round } = heatPlan(frame, weld)
  expect(index).toBeLessThan(0.8 * round)
})

test('a plan finds its weld order when it is first read, once', () => {
  const made = plan(newJob(buildOf('polygon-frame')!, 'mm', 'job-1'), metric)
  if (!made.ok) throw new Error('no plan')
  expect(Object.keys(made.value)).toContain('weld')
  expect(Object.getOwnPropertyDescriptor(made.value, 'weld')!.get).toBeTypeOf('function')
  expect(made.value.weld).toBe(made.value.weld)
  expect(made.value.weld.seams).toHaveLength(24)
})

test('balanced passes turn the frame twice, inside last welds them after the bottoms', () => {
  const { frame, shop } = polygon(6)
  const kinds = (passes: 'balanced' | 'inside last') =>
    weldPlan(frame, { ...shop, passes }).order.map((id) =>
      id
        .split('/')
        .slice(id.startsWith('turn') ? 0 : -1)
        .join('/'),
    )
  expect(kinds('balanced').filter((id) => id.startsWith('turn'))).toEqual(['turn:top', 'turn:top/2'])
  expect(kinds('balanced').slice(12)).toEqual([
    ...Array(3).fill('top'),
    'turn:top',
    ...Array(6).fill('bottom'),
    'turn:top/2',
    ...Array(3).fill('top'),
  ])
  expect(kinds('inside last').slice(-6)).toEqual(Array(6).fill('inside'))
})
