import { expect } from 'vitest'
import { stickName } from '../../src/core/facts/rack.ts'
import type { Made } from '../../src/core/facts.ts'
import type { CuttingWay, Nest } from '../../src/core/nest.ts'
import type { BenchCut } from '../../src/core/plan-shapes.ts'
import type { Dice } from '../prove/seed.ts'
import { freshName } from '../storage/faulty.ts'
import { handShop, rows, tabletOn, until } from './tablet.ts'

// One job through a day in which much goes wrong, with a count of its own of pieces and of steel. From sticks of 6000 of
// 40 × 40: clean-up 10, a kerf of 2.5 or of 3.2; square first with blanks as long as their piece, from the stick with
// ends of 45°, or paired.

export interface Day {
  readonly deeds: number
  readonly cuts: number
  readonly spoiled: number
  /** Plans of the rest that were made and taken. */
  readonly plans: number
  /** Sticks of those plans that are steel of earlier ones, each as long as was counted here. */
  readonly remains: number
  /** Spare pieces that those plans cut from. */
  readonly recut: number
  readonly tacked: number
  readonly apart: number
}

const saw = handShop.saws[0]!
const dayShop = {
  ...handShop,
  saws: [{ ...saw, blades: [...saw.blades, { id: 'thick', name: 'Thick blade', kerf: 3.2 }] }],
}

const stepsIn = (mm: number) => Math.round(mm * 1600)

export async function wholeDay(roll: Dice, deeds: number, way: CuttingWay = 'square first'): Promise<Day> {
  const name = freshName()
  let tablet = tabletOn(name)
  await tablet.actions.open()
  await tablet.actions.saveShop(dayShop)
  const id = await tablet.actions.newJob('cut-list')
  await tablet.actions.editJob(id, { way })
  const count = { deeds: 0, cuts: 0, spoiled: 0, plans: 0, remains: 0, recut: 0, tacked: 0, apart: 0 }
  const nests = new Map<string, Nest>()
  const lengths = new Map<string, number>()
  /** Of each shape how many ends have their 45°. */
  const miters = new Map<string, number>()

  const someRows = () =>
    rows(
      [roll.whole(1, 6), roll.whole(4, 16) * 100],
      [roll.whole(1, 6), roll.whole(4, 12) * 100 + 37, 45, 45],
      ...(way === 'square first' ? [] : [[roll.whole(1, 4), roll.whole(4, 9) * 100 + 13, 0, 45] as const]),
    )
  const view = () => tablet.view(id)
  const progress = () => tablet.state().progress
  const settled = async () => {
    tablet.actions.show(id)
    await until(
      tablet,
      ({ views }) => !['none', 'working'].includes(views[id]?.nesting.state ?? 'none'),
      'a nest',
    )
    const { nest, plan } = view()
    if (nest) nests.set(nest.id, nest)
    for (const { key, printed, angleFromSquare } of plan?.parts ?? []) {
      lengths.set(key, printed.longPoint.mm)
      miters.set(key, angleFromSquare.filter((angle) => Math.abs(angle) > 1).length)
    }
  }
  /** A blank is named by its length in steps, a piece by a shape that this job has or had. */
  const lengthOf = (key: string): number => {
    const blank = /blank (\d+)$/.exec(key)
    return blank ? Number(blank[1]) / 1600 : (lengths.get(key) ?? Number.NaN)
  }
  /** Tip to tip a half is as long as the blank that it was. */
  function lengthLying({ stage, key, from }: Made): number {
    const blank = progress().made.find(({ id: of }) => 'piece' in from && from.piece === of)
    return stage === 'half' && blank ? lengthLying(blank) : lengthOf(key)
  }
  const openCuts = () => view().cuts.filter(({ done, lost }) => !done && !lost)
  const ready = () => {
    const here = new Set(view().cuts.map(({ product }) => product.id))
    return openCuts().filter(({ parent, loaded }) => parent !== undefined || !here.has(loaded))
  }
  const isRest = () => view().nesting.rest === true || view().missing.length > 0

  /** What is left of a stick by what came off it, whole steps; its whole length while nothing did. */
  function counted(nest: Nest, stickId: string): number | undefined {
    const section = nest.sections.find(({ sticks }) => sticks.some((one) => one.id === stickId))!
    const stick = section.sticks.find((one) => one.id === stickId)!
    const now = progress().loaded[`${nest.id}/${stickId}`] ?? stick
    const of = (one: { readonly nest?: string; readonly from: object }) =>
      one.nest === nest.id && 'stick' in one.from && one.from.stick === stickId
    const off = [
      ...progress()
        .made.filter(of)
        .map(({ key }) => lengthOf(key)),
      ...progress()
        .spoiled.filter(of)
        .map(({ took }) => took),
    ]
    if (off.length === 0) return stepsIn(now.length)
    // Slanted cuts are shared by neighbors: `countedSlanted`.
    if (stick.pieces.some(({ ends }) => ends.some(({ p }) => p !== 0))) return undefined
    const [front] = now.ends
    const cleanUp = typeof front === 'object' ? 20 * Math.abs(front.p) : front === 'mill' ? 10 : 0
    return (
      stepsIn(now.length) -
      stepsIn(cleanUp) -
      off.reduce((sum, one) => sum + stepsIn(one) + stepsIn(section.kerf), 0)
    )
  }

  function onSaw(nest: Nest, stickId: string) {
    const section = nest.sections.find(({ sticks }) => sticks.some((one) => one.id === stickId))!
    const stick = section.sticks.find((one) => one.id === stickId)!
    return { stick, now: progress().loaded[stickName(nest.id, stickId)] ?? stick, kerf: section.kerf }
  }

  /** What is left on the mid-line of a stick whose cuts slant, mm, by the lengths and angles of what came off in its order. */
  function countedSlanted(nest: Nest, stickId: string): { readonly mm: number; readonly pieces: number } {
    const { stick, now, kerf } = onSaw(nest, stickId)
    const of = (one: { readonly nest?: string; readonly from: object }) =>
      one.nest === nest.id && 'stick' in one.from && one.from.stick === stickId
    const good = progress().made.filter(of)
    const off = stick.pieces.slice(0, good.length)
    const along = (p: number) => kerf * Math.hypot(1, p)
    const [front] = now.ends
    const first = stick.pieces[0]!.ends[0].p
    const before = typeof front === 'object' ? front.p : 0
    let mm = now.length - 20 * Math.abs(before - first) - (front === 'mill' ? Math.max(10, along(first)) : 0)
    for (const [at, { key, ends }] of off.entries()) {
      const own = ends[0].p
      const behind = off[at - 1]?.ends[1].p
      // A cut of its own after that of the piece before, where they do not share one.
      if (behind !== undefined && Math.abs(behind - own) > 1e-9)
        mm -= 20 * Math.abs(behind - own) + along(own)
      mm -= lengthOf(key) - 20 * (miters.get(key) ?? 0) + along(ends[1].p)
    }
    const last = off.at(-1)?.ends[1].p ?? first
    for (const { took } of progress().spoiled.filter(of)) mm -= took + along(last)
    return { mm, pieces: off.length }
  }

  /** Every stick of this nest that is steel of an earlier one is as long as that steel is, and is used once. */
  function steelIsThere(nest: Nest, say: string) {
    const used = new Set<string>()
    for (const { sticks } of nest.sections)
      for (const { rack, length } of sticks) {
        if (rack === undefined) continue
        expect(used.has(rack), `${say}: ${rack} used twice`).toBe(false)
        used.add(rack)
        const [of, stick] = rack.split('/') as [string, string?]
        const earlier = nests.get(of)
        const spoilt = progress().spoiled.find((one) => one.id === rack)
        const lying = progress().made.find((one) => one.id === rack)
        if (lying?.stage === 'piece') {
          expect(isJoined(lying), `${say}: ${lying.label} is welded in`).toBe(false)
          expect(stepsIn(length), `${say}: ${lying.label} again`).toBe(
            stepsIn(lengthOf(lying.key) - 40 * (miters.get(lying.key) ?? Number.NaN)),
          )
          count.recut += 1
          continue
        }
        const there =
          earlier && stick
            ? counted(earlier, stick)
            : stepsIn(
                spoilt?.left ??
                  (lying && lengthLying(lying)) ??
                  progress().rack.find((one) => one.id === rack)?.length ??
                  Number.NaN,
              )
        if (there === undefined) {
          // The nest may round up where each piece begins and ends.
          const { mm, pieces } = countedSlanted(earlier!, stick!)
          const over = mm * 1600 - stepsIn(length)
          expect(over, `${say}: ${rack}, ${length} of ${mm}`).toBeGreaterThan(-0.01)
          expect(over, `${say}: ${rack}, ${length} of ${mm}`).toBeLessThan(2 * pieces + 2)
        } else expect(stepsIn(length), `${say}: ${rack}`).toBe(there)
        count.remains += 1
      }
  }

  const isJoined = ({ job, copy = 1 }: Made) => progress().joined.includes(`${job}/${copy}`)

  /** Needed = cut + open + missing, for each geometry; what was cut beyond that is a spare. */
  function piecesAddUp(say: string) {
    const { plan, job, cuts, missing, refused } = view()
    expect(refused, say).toEqual([])
    if (!plan || view().nesting.rest) return
    for (const { key, mark, count: perCopy } of plan.parts) {
      const needed = perCopy * job.quantity
      const cut = progress().made.filter(
        (one) => one.stage === 'piece' && !one.used && one.key === key,
      ).length
      const open = cuts.filter(
        ({ product, done, lost }) => product.kind === 'piece' && product.mark === mark && !done && !lost,
      ).length
      const lacking = missing.filter((label) => label.replace(/\d+$/, '') === mark).length
      expect(
        Math.min(cut, needed) + open + lacking,
        `${say}: ${mark}, ${cut} cut, ${open} open, ${lacking} missing`,
      ).toBe(needed)
    }
  }

  /** False where every piece is cut, so that there is nothing left to plan. */
  async function planTheRest(say: string): Promise<boolean> {
    const spares = roll() < 0.5 ? view().spareSteel : []
    for (const one of spares) expect(isJoined(one), `${say}: ${one.label} is welded in`).toBe(false)
    await tablet.actions.planRest(
      id,
      spares.map(({ id: piece }) => piece),
    )
    const { offer } = view()
    if (!offer) {
      expect(tablet.state().trouble, say).toMatch(
        /Every piece that this job asks for is cut|Something was cut/,
      )
      tablet.actions.dismiss()
      return false
    }
    steelIsThere(offer.nest, say)
    await tablet.actions.acceptRest(id)
    await settled()
    expect(view().nest?.id, say).toBe(offer.nest.id)
    count.plans += 1
    return true
  }

  const cut = async (one: BenchCut) => {
    await tablet.actions.cut(id, one)
    count.cuts += 1
  }

  async function someDeed(): Promise<string> {
    const open = ready()
    const at = roll()
    if (at < 0.6 && open.length > 0) {
      await cut(roll() < 0.8 ? open[0]! : roll.pick(open))
      return 'cut'
    }
    if (at < 0.68) {
      await tablet.actions.undo(id)
      return 'undo'
    }
    if (at < 0.78 && open.length > 0) {
      const left = roll() < 0.5 ? 0 : roll.whole(1, 390)
      await tablet.actions.miscut(id, { of: { cut: open[0]! }, why: 'too short', left, ends: ['cut', 'cut'] })
      count.spoiled += 1
      return 'miscut'
    }
    const lying = progress().made.filter((one) => one.job === id && !one.used)
    if (at < 0.81 && lying.length > 0) {
      await tablet.actions.miscut(id, {
        of: { piece: roll.pick(lying).id },
        why: 'bad end',
        left: 0,
        ends: ['cut', 'cut'],
      })
      count.spoiled += 1
      return 'miscut of a piece'
    }
    if (at < 0.84) {
      await tablet.actions.editJob(id, { quantity: roll.whole(1, 3) })
      return 'quantity'
    }
    if (at < 0.86) {
      await tablet.actions.editParams(id, { rows: someRows() })
      return 'rows'
    }
    if (at < 0.88) {
      await tablet.actions.changeBlade(id, saw.id, roll.pick(['blade-1', 'thick']))
      return 'blade'
    }
    const fresh = (view().nest?.sections ?? [])
      .flatMap(({ sticks }) => sticks)
      .filter(
        ({ id: stick, rack }) => rack === undefined && !(`${view().nest!.id}/${stick}` in progress().opened),
      )
    if (at < 0.92 && fresh.length > 0) {
      await tablet.actions.load(id, roll.pick(fresh).id, roll.whole(5800, 6100), ['mill', 'mill'])
      return 'real stick'
    }
    if (at < 0.95) {
      tablet = tabletOn(name)
      await tablet.actions.open()
      return 'restart'
    }
    if (at < 0.97) {
      const copy = roll.whole(1, view().job.quantity)
      const apart = progress().joined.includes(`${id}/${copy}`) && roll() < 0.6
      if (apart) await tablet.actions.cutApart(id, copy)
      else
        await tablet.actions.tick(
          id,
          copy,
          `corner-${roll.whole(1, 4)}/outside`,
          roll.pick(['tacked', 'welded']),
        )
      count[apart ? 'apart' : 'tacked'] += 1
      return apart ? 'cut apart' : 'weld'
    }
    if (isRest()) await planTheRest('plan of the rest')
    return 'plan of the rest'
  }

  await tablet.actions.editParams(id, { rows: someRows() })
  await settled()
  for (; count.deeds < deeds; count.deeds++) {
    const deed = await someDeed()
    const say = `deed ${count.deeds}, ${deed}`
    // What a person was told and may read: the sentence is not a fault, the state after it is judged all the same.
    tablet.actions.dismiss()
    await settled()
    // Another blade or another job: planned again before anything else is cut, as the station says.
    if (view().nesting.rest || view().short.length > 0) await planTheRest(say)
    piecesAddUp(say)
  }
  for (let at = 0; openCuts().length > 0 || isRest() || view().short.length > 0; at++) {
    const say = `to the end, ${at}`
    expect(at, say).toBeLessThan(400)
    const next = ready()[0]
    if (next && !isRest() && view().short.length === 0) await cut(next)
    else if (!(await planTheRest(say))) break
    piecesAddUp(say)
  }
  const { plan, job } = view()
  for (const { key, mark, count: perCopy } of plan!.parts) {
    const cut = progress().made.filter((one) => one.stage === 'piece' && !one.used && one.key === key)
    expect(cut.length, `${mark} in the end`).toBeGreaterThanOrEqual(perCopy * job.quantity)
  }
  return count
}
