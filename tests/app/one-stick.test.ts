import { afterEach, describe, expect, test } from 'vitest'
import { wish } from '../../src/core/parts/one-stick.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { handShop, hasRun, rows, type Tablet, tabletOn, until } from './tablet.ts'

afterEach(closeTabs)

/** A frame of 900 × 600, mitered, of 40 tube, a bar across: A × 2 of 900, B × 2 of 600, C of 520; sticks of these lengths. */
async function frame(lengths: readonly number[], quantity = 1): Promise<readonly [Tablet, string]> {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  const id = await tablet.actions.newJob('rect-frame')
  const { shop } = tablet.state()
  await tablet.actions.saveShop({ ...shop, sections: [], usualLengths: lengths })
  await tablet.actions.editJob(id, { quantity })
  tablet.actions.show(id)
  await hasRun(tablet, id)
  return [tablet, id]
}

const sticksOf = (tablet: Tablet, id: string) =>
  tablet
    .view(id)
    .nest?.sections.flatMap(({ sticks }) =>
      sticks.map(({ pieces }) => pieces.map(({ mark, copy }) => `${mark}${copy}`).join(' ')),
    )
    .sort()

const partOf = (tablet: Tablet, id: string, mark: string) =>
  tablet.view(id).plan!.parts.find((part) => part.mark === mark)!

const want = (tablet: Tablet, id: string, mark: string, ...beside: readonly string[]) =>
  tablet.actions.editJob(id, {
    oneStick: wish(
      tablet.view(id).job,
      partOf(tablet, id, mark),
      beside.map((each) => partOf(tablet, id, each)),
    ),
  })

const settled = (tablet: Tablet, id: string) =>
  until(tablet, () => tablet.view(id).nesting.state === 'found' && tablet.view(id).cuts.length > 0, 'a nest')

describe('parts that are wanted from one stick', () => {
  // A stick of 3000 gives three of 900; three frames have six: two sticks. A pair of its own for each frame: three.
  test('each frame gets the pair from a stick of its own, the run follows, and it outlives another size', async () => {
    const [tablet, id] = await frame([3000], 3)
    await want(tablet, id, 'A')
    await settled(tablet, id)
    const pairs = () => sticksOf(tablet, id)!.map((stick) => stick.replaceAll(/B\d/g, '').trim())
    for (const copy of [1, 2, 3])
      expect(
        pairs()
          .filter((stick) => stick.includes(`A${copy}`))
          .map((stick) => stick.split(`A${copy}`).length - 1),
      ).toEqual([2])
    const { cuts } = tablet.view(id)
    const from = (piece: string) => cuts.find(({ product }) => product.id === `${piece}.b`)!.loaded
    expect([from('A1'), from('A3'), from('A5')]).toEqual([from('A2'), from('A4'), from('A6')])
    // The sides of 600 become the longer ones, and with them the bar between: A is another part now, C the two that were named.
    await tablet.actions.editParams(id, { width: 1000 })
    await settled(tablet, id)
    expect(tablet.view(id).plan!.parts.map(({ oneStick }) => oneStick)).toEqual([
      undefined,
      undefined,
      `${id}/C`,
    ])
    expect(partOf(tablet, id, 'C')).toMatchObject({ printed: { length: { mm: 900 } } })
  })

  test('where no stick is long enough it is said, and without the wish there is a nest again', async () => {
    const [tablet, id] = await frame([2000])
    await want(tablet, id, 'A', 'B')
    await until(tablet, () => tablet.view(id).nesting.state === 'failed', 'words')
    expect(tablet.view(id).nesting.text).toMatch(/^2 × A, 2 × B are to come from one stick and need 3/)
    await tablet.actions.editJob(id, { oneStick: undefined })
    await settled(tablet, id)
    expect(tablet.view(id).job).not.toHaveProperty('oneStick')
  })

  test('an accepted layout stands until the wish is another, and then what is left is planned anew', async () => {
    const [tablet, id] = await frame([6000])
    await tablet.actions.accept(id)
    const accepted = tablet.view(id).nest!
    expect(tablet.view(id).refused).toEqual([])
    await want(tablet, id, 'A')
    expect(tablet.view(id).nesting).toMatchObject({ state: 'accepted', rest: true })
    expect(tablet.view(id).nest).toEqual(accepted)
    await tablet.actions.planRest(id)
    const { offer } = tablet.view(id)
    expect(offer!.nest.sections[0]!.demand.map(({ mark, same }) => [mark, same])).toEqual([
      ['A', `${id}/A/1`],
      ['B', undefined],
    ])
  })

  test('a blank that lies there has its stick behind it: the others still come from one', async () => {
    const [tablet, id] = await frame([6000])
    await want(tablet, id, 'A')
    await settled(tablet, id)
    await tablet.actions.accept(id)
    await tablet.actions.cut(id, tablet.view(id).cuts.find(({ product }) => product.id === 'A1.b')!)
    await tablet.actions.editParams(id, { width: 500 })
    await tablet.actions.planRest(id)
    const { offer } = tablet.view(id)
    const from = offer!.nest.sections[0]!.sticks.filter(({ pieces }) =>
      pieces.some(({ mark }) => mark === 'A'),
    )
    expect(from.map(({ pieces }) => pieces.filter(({ mark }) => mark === 'A').length)).toEqual([1, 1])
    await tablet.actions.acceptRest(id)
    expect(tablet.view(id).refused).toEqual([])
    expect(tablet.view(id).cuts.length).toBeGreaterThan(0)
  })
})

// Square pieces of 40 tube, sticks of 6000, kerf 2.5, clean-up 10, at least 300 kept.
describe('one of a pair from one stick is spoiled', () => {
  const cutOf = (tablet: Tablet, id: string, piece: string) =>
    tablet.view(id).cuts.find(({ product }) => product.id === piece)!
  const spoil = (tablet: Tablet, id: string, piece: string) =>
    tablet.actions.miscut(id, {
      of: { cut: cutOf(tablet, id, piece) },
      why: 'bad end',
      left: 0,
      ends: ['cut', 'cut'],
    })

  async function pairs(mark: string, quantity: number, given: ReturnType<typeof rows>) {
    const tablet = tabletOn(freshName())
    await tablet.actions.open()
    await tablet.actions.saveShop(handShop)
    const id = await tablet.actions.newJob('cut-list')
    await tablet.actions.editParams(id, { rows: given })
    await tablet.actions.editJob(id, { quantity })
    tablet.actions.show(id)
    await hasRun(tablet, id)
    await want(tablet, id, mark)
    await settled(tablet, id)
    await tablet.actions.accept(id)
    return { tablet, id }
  }
  async function rest(tablet: Tablet, id: string) {
    await tablet.actions.planRest(id)
    expect(tablet.state().trouble).toBeNull()
    const { offer } = tablet.view(id)
    await tablet.actions.acceptRest(id)
    expect(tablet.view(id).refused).toEqual([])
    const sticks = tablet.view(id).nest!.sections.flatMap((section) => section.sticks)
    return {
      offer: offer!,
      on: sticks.map((stick) => [stick.id, stick.pieces.map(({ mark }) => mark).join(' ')]),
    }
  }

  // 6000 − 10 − 2 · 1502.5 = 2985 are left: A of 2700 or the other B. A there would leave the longer drop.
  test('the other comes from what is left of their stick, though the steel would serve another piece better', async () => {
    const { tablet, id } = await pairs('B', 1, rows([2, 1500], [1, 2700]))
    await tablet.actions.cut(id, cutOf(tablet, id, 'B1'))
    await spoil(tablet, id, 'B2')
    const { offer, on } = await rest(tablet, id)
    expect(on.sort()).toEqual([
      ['S1', 'B'],
      ['S2', 'A'],
    ])
    expect(offer.apart).toEqual([])
  })

  // 6000 − 10 − 1502.5 − 2 · 2002.5 = 482.5 are left, and 2000 are wanted.
  test('where what is left is too short, it is said which piece comes from another stick', async () => {
    const { tablet, id } = await pairs('A', 1, rows([2, 2000], [1, 1500]))
    await tablet.actions.cut(id, cutOf(tablet, id, 'B1'))
    await tablet.actions.cut(id, cutOf(tablet, id, 'A1'))
    await spoil(tablet, id, 'A2')
    const { offer, on } = await rest(tablet, id)
    expect(on).toEqual([['S2', 'A']])
    expect(offer.apart).toEqual([{ open: [{ mark: 'A', count: 1 }], from: ['S1'], why: 'too short' }])
  })

  // Each stick of 6000 holds one pair of 1900; 6000 − 10 − 2 · 1902.5 = 2185 are left of either, enough for one more.
  test('of two copies the one whose piece is spoiled is made good from its own stick', async () => {
    const { tablet, id } = await pairs('A', 2, rows([2, 1900]))
    const own = (stick: string) =>
      tablet.view(id).cuts.filter(({ loaded, product }) => loaded === stick && product.kind === 'piece')
    for (const { product } of own('S1')) await tablet.actions.cut(id, cutOf(tablet, id, product.id))
    const [one, two] = own('S2').map(({ product }) => product.id)
    await tablet.actions.cut(id, cutOf(tablet, id, one!))
    await spoil(tablet, id, two!)
    const { offer, on } = await rest(tablet, id)
    expect([on, offer.apart]).toEqual([[['S2', 'A']], []])
  })
})
