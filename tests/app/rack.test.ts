import { afterEach, describe, expect, test } from 'vitest'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, type Tablet, tabletOn } from './tablet.ts'

afterEach(closeTabs)

const section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 } as const

async function opened(): Promise<Tablet> {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  return tablet
}

const lengths = (tablet: Tablet) => tablet.state().progress.rack.map(({ length }) => length)

describe('what was done on the rack is taken back, the last first', () => {
  test('found 1234 and bought two of 6000; discarded one; three undos leave nothing', async () => {
    const tablet = await opened()
    await tablet.actions.found({ section, length: 1234, ends: ['cut', 'cut'] })
    await tablet.actions.bought(section, 6000, 2)
    await tablet.actions.discard(tablet.state().progress.rack[0]!.id)
    expect(lengths(tablet)).toEqual([6000, 6000])
    await tablet.actions.undoRack()
    expect(lengths(tablet)).toEqual([1234, 6000, 6000])
    await tablet.actions.undoRack()
    expect(lengths(tablet)).toEqual([1234])
    await tablet.actions.undoRack()
    expect(lengths(tablet)).toEqual([])
    await tablet.actions.undoRack()
    expect(tablet.state().trouble).toBeNull()
  })

  test('a corrected length goes back to the one before it', async () => {
    const tablet = await opened()
    await tablet.actions.found({ section, length: 1234, ends: ['cut', 'cut'] })
    const { id } = tablet.state().progress.rack[0]!
    await tablet.actions.correct(id, 1230)
    expect(lengths(tablet)).toEqual([1230])
    await tablet.actions.undoRack()
    expect(lengths(tablet)).toEqual([1234])
  })

  test('steel that is on the saw since is not taken back: the undo names what was done before it', async () => {
    const tablet = await opened()
    await tablet.actions.found({
      section: { ...section, width: 50, height: 50 },
      length: 900,
      ends: ['cut', 'cut'],
    })
    await tablet.actions.bought(section, 6000, 2)
    const id = await cutListJob(tablet, 2, 600)
    await tablet.actions.cut(id, tablet.view(id).cuts[0]!)
    expect(lengths(tablet)).toEqual([900, 6000])
    await tablet.actions.undoRack()
    expect(lengths(tablet)).toEqual([6000])
  })
})
