import { afterEach, describe, expect, test } from 'vitest'
import { wish } from '../../src/core/parts/one-stick.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { hasRun, type Tablet, tabletOn, until } from './tablet.ts'

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
