// Hidden edges of the drawing of every build agree with rays (a thousand to a view: tests/prove/drawn.test.ts).
import { describe, expect, test } from 'vitest'
import { backToFront } from '../../src/ui/drawing/shapes.ts'
import { dice } from '../prove/seed.ts'
import { drawnFaults, views } from './drawn.ts'
import { drawnFrames } from './drawn-frames.ts'

describe.each(drawnFrames)('%s', (name, frame) => {
  test.each(views)(
    '100 points of edges %s are drawn where a ray to the eye is free, and only there',
    (way, view) => {
      expect(drawnFaults(frame, view, 100, dice(`drawn ${name} ${way}`, 1)).faults).toEqual([])
    },
  )
})

test('a drawing that leaves nothing out is found out', () => {
  const [, frame] = drawnFrames.find(([name]) => name === 'four-leg')!
  const [, view] = views[2]!
  const wrong: typeof backToFront = (solids, from) => backToFront(solids, from, () => true)
  const told = drawnFaults(frame, view, 100, dice('drawn wrong', 1), wrong)
  expect(told.faults.length).toBeGreaterThan(10)
  expect(told.hidden).toBeGreaterThan(10)
})

test('one that leaves out what a solid beside it does not hide is found out', () => {
  const [, frame] = drawnFrames.find(([name]) => name === 'four-leg')!
  const [, view] = views[2]!
  const wrong: typeof backToFront = (solids, from) =>
    backToFront(solids, from).map((one) => ({ ...one, rim: [], edges: [] }))
  expect(drawnFaults(frame, view, 100, dice('drawn bare', 1), wrong).faults.length).toBeGreaterThan(10)
})
