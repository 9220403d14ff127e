import { expect, test } from 'vitest'
import { seamsOf } from '../../../src/core/weld/seams.ts'
import { framed, metric, onBars, tube } from '../builds/framed.ts'

const round = (width: number) => ({ kind: 'round-tube', width, wall: 3 }) as const

test('a post of 80 on a base plate: four fillets of 80; of round tube 88.9: four quarters of π · 88.9 / 4', () => {
  const at = (postSection: ReturnType<typeof tube> | ReturnType<typeof round>) =>
    seamsOf(framed('pedestal', { ...onBars, base: 'base plate', postSection }, metric).frame).filter(
      ({ joint }) => joint === 'base/post-foot',
    )
  expect(at(tube(80, 3)).map(({ length }) => length)).toEqual(
    [80, 80, 80, 80].map((mm) => expect.closeTo(mm, 9)),
  )
  expect(at(round(88.9)).map((seam) => seam.length)).toEqual(
    Array(4).fill(expect.closeTo((Math.PI * 88.9) / 4, 2)),
  )
})

test('an arm of 50 under a square hub of 200: both long edges and its inner end are welded, not the edge of the hub', () => {
  const { frame } = framed('pedestal', { armsMeet: 'hub plate', hubShape: 'square', hubSize: 200 }, metric)
  const seams = seamsOf(frame).filter(({ joint }) => joint === 'base/arm-1/hub')
  // Inner end at 25 from the middle, the hub's edge at 100.
  expect(seams.map(({ length }) => length).sort((a, b) => a - b)).toEqual(
    [50, 75, 75].map((mm) => expect.closeTo(mm, 6)),
  )
  for (const { place } of seams) expect(place.fromA).toBeLessThan(75)
})
