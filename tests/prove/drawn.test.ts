// A thousand random points of edges in each view of each build's drawing: left out where a ray to the eye is stopped.
import { describe, expect, test } from 'vitest'
import { drawnFaults, views } from '../solids/drawn.ts'
import { drawnFrames } from '../solids/drawn-frames.ts'
import { dice, seed } from './seed.ts'

describe.each(drawnFrames)(`the drawing of %s, seed ${seed}`, (name, frame) => {
  test.each(views)('%s', (way, view) => {
    const told = drawnFaults(frame, view, 1000, dice(`drawn ${name} ${way}`))
    expect(told.faults).toEqual([])
    expect(told.points).toBe(1000)
  })
})
