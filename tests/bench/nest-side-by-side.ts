import { firstFit } from '../../src/nest/first-fit.ts'
import { costOf, type Model, modelOf, sticksOf } from '../../src/nest/model.ts'
import { openWholeSolver, timeShare } from '../../src/nest/whole-solver.ts'
import { inchJob, shopJob, triplets, uniform } from '../nest/classes.ts'
import { dice } from '../prove/seed.ts'
import { cpuSeconds, secondsEach, timed } from './nest-classes.ts'

interface Answer {
  readonly sticks: number
  readonly cost: number
  readonly ms: number
}

export interface SideBySide {
  readonly name: string
  readonly pieces: number
  readonly firstFit: Answer
  /** Absent: no answer within the time. */
  readonly assignment?: Answer
  readonly ours: Answer & { readonly proved: boolean }
}

/** Longest first, each on the first stick with room, new sticks of the kind that costs least for its room. */
function descending(model: Model): Omit<Answer, 'ms'> {
  const pricing = model.kinds.map(({ price }) => price)
  const perRoom = (kind: number) => pricing[kind]! / Math.max(1, model.kinds[kind]!.room)
  const fills = firstFit(
    model,
    model.items.map(({ count }) => count),
    model.kinds.map(({ count }) => count),
    'first fit',
    (a, b) => perRoom(a) - perRoom(b) || a - b,
  )
  return { sticks: sticksOf(fills), cost: costOf(fills, pricing) }
}

/** Each stick that could be used is a variable, each number of pieces of one length on it another: docs/nest.md. */
function assignmentOf({ items, kinds }: Model, below: number): { program: string; priceOf: number[] } {
  const priceOf: number[] = []
  const rows: string[] = []
  const counts = items.map((): string[] => [])
  for (const { room, price, count } of kinds) {
    const there = Math.min(count, price > 0 ? Math.floor(below / price) : count)
    for (let time = 0; time < there; time += 1) {
      const stick = priceOf.push(price) - 1
      for (const [item, terms] of counts.entries()) terms.push(`x${item}_${stick}`)
      const load = items.map(({ size }, item) => `${size} x${item}_${stick}`).join('\n + ')
      rows.push(`r${stick}: ${load} - ${room} y${stick} <= 0`)
      if (time > 0) rows.push(`s${stick}: y${stick} - y${stick - 1} <= 0`)
    }
  }
  for (const [item, terms] of counts.entries())
    rows.push(`d${item}: ${terms.join('\n + ')} = ${items[item]!.count}`)
  const sum = priceOf.map((price, stick) => `${price} y${stick}`).join('\n + ')
  const bounds = priceOf.map((_, stick) => `y${stick} <= 1`).join('\n ')
  const whole = [...priceOf.keys()].flatMap((stick) => [
    `y${stick}`,
    ...items.map((_, item) => `x${item}_${stick}`),
  ])
  const program = `Minimize\n obj: ${sum}\nSubject To\n ${rows.join('\n ')}\nBounds\n ${bounds}\nGeneral\n${whole.join('\n')}\nEnd\n`
  return { program, priceOf }
}

export async function sideBySide(): Promise<SideBySide[]> {
  const open = await openWholeSolver()
  const rows: SideBySide[] = []
  for (const [name, given] of [
    ['order in mm', shopJob(dice('side mm', 1))],
    ['order in mm, another', shopJob(dice('side mm 2', 1))],
    ['order in inches', inchJob(dice('side inch', 1))],
    ['order in inches, another', inchJob(dice('side inch 2', 1))],
    ['uniform, 120 pieces', uniform(dice('side U', 1), 120)],
    ['triplets, 60 pieces', triplets(dice('side T', 1), 60)],
  ] as const) {
    const model = modelOf(given)
    let start = cpuSeconds()
    const first = { ...descending(model), ms: 1000 * (cpuSeconds() - start) }
    start = cpuSeconds()
    const { program, priceOf } = assignmentOf(model, first.cost)
    // One program and nothing after it: it may have all of the time.
    const amounts = open(() => secondsEach / timeShare)(program)
    const ms = 1000 * (cpuSeconds() - start)
    const used = amounts && priceOf.filter((_, stick) => (amounts[`y${stick}`] ?? 0) > 0.5)
    const { solved, took } = await timed(given)
    if (!solved.ok) throw new Error(`${name}: ${solved.problems[0]?.text}`)
    const { nest, rows: sticks } = solved.value
    const pricing = model.kinds.map(({ price }) => price)
    const cost = sticks.reduce((sum, { stock }) => sum + pricing[stock]!, 0)
    rows.push({
      name,
      pieces: model.pieces,
      firstFit: first,
      ...(used && {
        assignment: { sticks: used.length, cost: used.reduce((sum, price) => sum + price, 0), ms },
      }),
      ours: { sticks: sticks.length, cost, ms: 1000 * took, proved: nest.proved },
    })
  }
  return rows
}
