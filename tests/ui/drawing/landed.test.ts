import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { frameOf } from '../../../src/core/draft.ts'
import type { Params } from '../../../src/core/job.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { landedIn, landedLines } from '../../../src/ui/drawing/landed.ts'
import { backToFront } from '../../../src/ui/drawing/shapes.ts'
import { solidsOf } from '../../../src/ui/drawing/solid.ts'
import { fromAbove, fromFront, turned } from '../../../src/ui/drawing/view.ts'

function framed(kind: string, given: Params) {
  const start = newJob(buildOf(kind)!, 'mm', 'j')
  const build = { ...start.build, params: { ...start.build.params, ...given } }
  const made = frameOf({ ...start, build }, startShop('mm'))
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return made.value
}

describe('a pedestal whose post of 80 stands between crossing arms and bars', () => {
  const frame = framed('pedestal', { bars: 'two, crossing' })
  const landed = landedIn(frame)
  const lines = (view: typeof fromFront) => landedLines(landed, backToFront(solidsOf(frame), view), view)

  test('the post’s head is seen neither from above nor from the front: it covers an underside', () => {
    const bar = frame.joints.find(({ members }) => members[0] === 'base/post')!.members[1]!
    expect(landed.some(({ on, by }) => on === bar && by === 'base/post')).toBe(true)
    expect(lines(fromAbove).some(({ on }) => on === bar)).toBe(false)
    expect(lines(fromFront).some(({ on }) => on === bar)).toBe(false)
  })

  test('from below it is 80 of the 40 wide bar, dashed over the post that hides it', () => {
    const view = turned(0, -90)
    const bar = frame.joints.find(({ members }) => members[0] === 'base/post')!.members[1]!
    const [square] = lines(view).filter(({ on }) => on === bar)
    const size = ([0, 1] as const).map((axis) => {
      const values = square!.lines.flat().map((point) => point[axis])
      return Math.round((Math.max(...values) - Math.min(...values)) * 1e6) / 1e6
    })
    expect(size.sort()).toEqual([40, 80])
  })

  test('every landing on a face that looks at the eye has its four sides, unless a third part hides them', () => {
    for (const view of [fromAbove, fromFront, turned(28, 34)])
      for (const { lines: drawn } of lines(view)) expect(drawn.length).toBeGreaterThan(0)
    expect(lines(turned(28, 34)).length).toBeGreaterThan(2)
  })
})
