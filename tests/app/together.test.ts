import { afterEach, describe, expect, test } from 'vitest'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, hasRun, rows, type Tablet, tabletOn, until } from './tablet.ts'

afterEach(closeTabs)

// A stick of 6000 has 5927.5 between the clean-up cut of 10 and what the vise holds (60 + 2.5): six pieces of 950 with
// five kerfs of 2.5 are 5712.5. Four pieces alone take a stick, two pieces alone take a stick, together one is enough.

async function two(): Promise<{ tablet: Tablet; four: string; pair: string }> {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  const pair = await cutListJob(tablet, 2, 950)
  const four = await cutListJob(tablet, 4, 950)
  return { tablet, four, pair }
}

const bothFound = (tablet: Tablet, ...ids: string[]) =>
  until(
    tablet,
    ({ views }) => ids.every((id) => views[id]?.nest?.jobs.length === 2 && views[id]!.cuts.length > 0),
    'one nest for both',
  )

const together = async () => {
  const all = await two()
  await all.tablet.actions.nestTogether(all.four, [all.pair])
  await bothFound(all.tablet, all.four, all.pair)
  return all
}

const doneIn = (tablet: Tablet, id: string) =>
  tablet.view(id).cuts.filter(({ done }) => done !== undefined).length

async function cutAll(tablet: Tablet, id: string, many: number): Promise<void> {
  for (let n = 0; n < many; n++)
    await tablet.actions.cut(id, tablet.view(id).cuts.find(({ done }) => done === undefined)!)
}

describe('two jobs bought together', () => {
  test('take one stick instead of two, by one nest that both show and both judges let pass', async () => {
    const { tablet, four, pair } = await together()
    const [a, b] = [tablet.view(four), tablet.view(pair)]
    expect(a.nest?.id).toBe(b.nest?.id)
    expect(a.nest?.sections.flatMap(({ sticks }) => sticks.map(({ from }) => from))).toEqual(['buy'])
    expect([a.refused, b.refused]).toEqual([[], []])
    expect([a.together, b.together]).toEqual([[pair], [four]])
    expect([a.cuts.length, b.cuts.length]).toEqual([6, 6])
    // One name each, though both jobs call their part A.
    const names = a.cuts.map(({ product }) => product.id)
    expect(new Set(names).size).toBe(6)
    expect(names.map((name) => name.replace(/\d+$/, '')).sort()).toEqual(
      [four, pair].sort()[0] === four
        ? ['1A', '1A', '1A', '1A', '2A', '2A']
        : ['1A', '1A', '2A', '2A', '2A', '2A'],
    )
  })

  test('of mitered frames too: two hexagons of 600 take 12 blanks, and every piece of both is finished', async () => {
    const tablet = tabletOn(freshName())
    await tablet.actions.open()
    await tablet.actions.saveShop(handShop)
    const one = await tablet.actions.newJob('polygon-frame')
    const other = await tablet.actions.newJob('polygon-frame')
    tablet.actions.show(one)
    await hasRun(tablet, one)
    await tablet.actions.nestTogether(one, [other])
    await bothFound(tablet, one, other)
    const { refused, cuts, nest } = tablet.view(other)
    expect(refused).toEqual([])
    // 6 sides twice, each a blank and two ends.
    expect(cuts.length).toBe(36)
    expect(nest?.sections[0]?.sticks.length).toBe(1)
    await cutAll(tablet, one, 36)
    const finished = tablet.state().progress.made.filter(({ stage }) => stage === 'piece')
    expect([one, other].map((id) => finished.filter(({ job }) => job === id).length)).toEqual([6, 6])
  })

  test('work by it both once it is accepted, and each gets its own pieces, whichever is on the screen', async () => {
    const { tablet, four, pair } = await together()
    await tablet.actions.accept(four)
    const nest = tablet.view(four).nest!.id
    expect(tablet.state().progress.accepted).toEqual({ [four]: nest, [pair]: nest })
    await cutAll(tablet, four, 6)
    const made = tablet.state().progress.made.map(({ job }) => job)
    expect([made.filter((job) => job === four).length, made.filter((job) => job === pair).length]).toEqual([
      4, 2,
    ])
    expect([doneIn(tablet, four), doneIn(tablet, pair)]).toEqual([6, 6])
    expect(tablet.view(pair).spares).toEqual([])
    // Undo at the saw takes back the last cut, of whichever job it was.
    const last = made.at(-1)!
    await tablet.actions.undo(four)
    expect(tablet.state().progress.made.filter(({ job }) => job === last).length).toBe(last === four ? 3 : 1)
    expect(doneIn(tablet, pair)).toBe(5)
  })

  test('a job that changes afterwards leaves neither a layout to work by; the other plans what is left on its own', async () => {
    const { tablet, four, pair } = await together()
    await tablet.actions.accept(four)
    await cutAll(tablet, four, 1)
    await tablet.actions.editParams(pair, { rows: rows([3, 950]) })
    expect(tablet.view(pair).nesting.rest).toBe(true)
    expect(tablet.view(four).nesting.rest).toBe(true)
    expect(tablet.view(four).nesting.text).toContain('laid out together')
  })

  test('one that is laid out already is refused, in words, and nothing changes', async () => {
    const { tablet, four, pair } = await two()
    await tablet.actions.accept(four)
    await tablet.actions.nestTogether(pair, [four])
    expect(tablet.state().trouble).toMatch(/is laid out already/)
    expect(tablet.view(pair).together).toBeUndefined()
  })

  test('bought alone again, each has its own stick and its own marks', async () => {
    const { tablet, four, pair } = await together()
    await tablet.actions.nestTogether(four, [])
    await until(tablet, ({ views }) => views[four]?.nest?.jobs.length === 1, 'alone again')
    tablet.actions.show(pair)
    await until(tablet, ({ views }) => views[pair]?.nest?.jobs.length === 1, 'alone again')
    await hasRun(tablet, pair)
    expect(tablet.view(pair).cuts.map(({ product }) => product.id)).toEqual(['A1', 'A2'])
    expect(tablet.view(pair).together).toBeUndefined()
  })

  test('both are still together, and work, after the app is closed and opened again', async () => {
    const name = freshName()
    const first = tabletOn(name)
    await first.actions.open()
    await first.actions.saveShop(handShop)
    const pair = await cutListJob(first, 2, 950)
    const four = await cutListJob(first, 4, 950)
    await first.actions.nestTogether(pair, [four])
    await bothFound(first, four, pair)
    await first.actions.accept(pair)
    const again = tabletOn(name)
    await again.actions.open()
    again.actions.show(four)
    await hasRun(again, four)
    expect(again.view(four).together).toEqual([pair])
    await cutAll(again, four, 6)
    expect(doneIn(again, four)).toBe(6)
  })
})
