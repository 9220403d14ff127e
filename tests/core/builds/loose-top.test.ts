import { describe, expect, test } from 'vitest'
import { plateMass, platesOf } from '../../../src/core/parts/plates.ts'
import { seamsOf } from '../../../src/core/weld/seams.ts'
import { framed, metric, partOf, problems, sizeOf, tube } from './framed.ts'

const params = { section: tube(40, 3) }

describe('a frame round a loose top', () => {
  test('a top of 1200 × 600 with 3 all round in 40 tube: 1206 × 606 clear, 1286 × 686 outside', () => {
    const made = framed('loose-top', params, metric)
    expect(partOf(made, 'Side rail').longPoint).toBeCloseTo(1286, 9)
    expect(partOf(made, 'End rail').longPoint).toBeCloseTo(686, 9)
    expect(sizeOf(made, 'clear length inside').exact).toBeCloseTo(1206, 9)
    expect(sizeOf(made, 'width of the loose top').exact).toBeCloseTo(600, 9)
    const outside = framed('loose-top', { ...params, sizeIs: 'outside' }, metric)
    expect(sizeOf(outside, 'length of the loose top').exact).toBeCloseTo(1200 - 80 - 6, 9)
  })

  test('ten tabs, one mark: their upper faces 20 under the frame, 3 on each long side at sixths', () => {
    const made = framed('loose-top', params, metric)
    const tabs = made.frame.plates
    expect(tabs).toHaveLength(10)
    for (const { pose, thickness } of tabs) expect(pose[14]! + thickness).toBeCloseTo(20, 9)
    expect(new Set(platesOf(made.frame, metric).map(({ mark }) => mark)).size).toBe(2)
    const front = tabs.filter(({ on }) => on[0] === 'frame/side-1').map(({ pose }) => pose[12]!)
    expect(front).toEqual([-402, 0, 402].map((x) => expect.closeTo(x, 9)))
  })

  test('the slots run across the grain: along the width, so in the tabs of long sides inward, in others along the rail', () => {
    const angle = (grain: string) =>
      ['frame/side-1', 'frame/side-2'].map((rail) => {
        const tab = framed('loose-top', { ...params, grain }, metric).frame.plates.find(
          ({ on }) => on[0] === rail,
        )!
        const [slot] = tab.slots!
        const along = (slot!.angle * Math.PI) / 180
        // Direction in the world: the tab's own x and y, turned.
        return [0, 1].map((k) =>
          Math.abs(Math.cos(along) * tab.pose[k]! + Math.sin(along) * tab.pose[4 + k]!).toFixed(6),
        )
      })
    expect(angle('along the length')).toEqual([
      ['0.000000', '1.000000'],
      ['0.000000', '1.000000'],
    ])
    expect(angle('along the width')).toEqual([
      ['1.000000', '0.000000'],
      ['1.000000', '0.000000'],
    ])
  })

  test('a tab of 40 × 40 × 5 with a slot 6 × 18 weighs 7.85e-6 · 5 · (1600 − 12 · 6 − 9π) kg', () => {
    const [tab] = framed('loose-top', params, metric).frame.plates
    expect(plateMass(tab!)).toBeCloseTo(7.85e-6 * 5 * (1600 - 72 - 9 * Math.PI), 9)
  })

  test('each tab is welded above and below along its 40', () => {
    const { frame } = framed('loose-top', params, metric)
    const seams = seamsOf(frame).filter(({ joint }) => joint.startsWith('tabs/'))
    expect(seams).toHaveLength(20)
    for (const { length } of seams) expect(length).toBeCloseTo(40, 9)
    const heights = new Set(seams.map(({ from }) => from[2].toFixed(6)))
    expect([...heights].sort()).toEqual(['15.000000', '20.000000'])
  })

  test('bars of 20 tube from front to back are 606 long, their upper faces level with the tabs', () => {
    const made = framed('loose-top', { ...params, barCount: 2 }, metric)
    expect(partOf(made, 'Bar')).toMatchObject({ count: 2 })
    expect(partOf(made, 'Bar').longPoint).toBeCloseTo(606, 9)
    const bar = made.frame.members.find(({ id }) => id === 'bars/bar-1')!
    expect(bar.pose[14]).toBeCloseTo(10, 9)
  })

  test('glass and unsupported stone are cautioned; neither has slots', () => {
    const codes = (topOf: string) => framed('loose-top', { ...params, topOf }, metric).frame
    expect(codes('glass').warnings.map(({ code }) => code)).toEqual(['glass'])
    expect(codes('stone').warnings.map(({ code }) => code)).toEqual(['stone-unsupported'])
    expect(codes('stone').plates.every(({ slots }) => slots === undefined)).toBe(true)
  })
})

describe('a loose top that cannot be', () => {
  test.each([
    [{ topThickness: 40 }, 'build.params.topThickness', /40 mm thick cannot lie in a frame 40 mm high/],
    [{ tabReach: 3 }, 'build.params.tabReach', /reach 3 mm do not come under a top that stands 3 mm off/],
    [{ slotLength: 40 }, 'build.params.slotLength', /40 mm over all has no room .* shorter than 37 mm/],
    [{ tabsLong: 0, tabsShort: 0 }, 'build.params.tabsLong', /would lie on nothing/],
    [{ tabsLong: 3, barCount: 1 }, 'build.params.barCount', /lie in each other/],
    [{ tabWidth: 200, tabsLong: 7 }, 'build.params.tabReach', /lie in each other/],
    [{ sizeIs: 'outside', width: 80 }, 'build.params.width', /80 mm leaves no top inside .* more than 86 mm/],
  ])('%j', (given, field, text) => {
    const [problem] = problems('loose-top', { ...params, ...given } as Parameters<typeof problems>[1], metric)
    expect(problem?.field).toBe(field)
    expect(problem?.text).toMatch(text)
  })
})
