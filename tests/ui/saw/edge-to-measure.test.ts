import { expect, test } from 'vitest'
import type { AtCut } from '../../../src/ui/drawing/lying.ts'
import { edgeOf, sayEdge } from '../../../src/ui/saw/edge-to-measure.tsx'

// Which edge a first piece is measured on. Slopes as in design.md 5: x grows toward the stop, y off the fence.
const slope = Math.tan(Math.PI / 6)
function at(lead: number, trail: number): AtCut {
  const end = (x: number, p: number) => ({ x, p, q: 0 })
  const work = { lead: end(400, lead), trail: end(0, trail), depth: 40, height: 40 }
  return { keep: work, rest: work, swing: 0, stop: 400, kerf: 2.5 }
}

test('long side at the fence: from point to point there, and a hook slips off', () => {
  const piece = at(-slope, slope)
  expect(edgeOf(piece)).toBe('fence')
  expect(sayEdge(piece, 'fence', true)).toBe(
    'Along the edge that lay at the fence, from point to point. A hook slips off a point: hold the tape at its 1 in mark and take 1 in off.',
  )
})

test('long side outward: the other edge; in a metric shop the tape is held at 100', () => {
  const piece = at(slope, -slope)
  expect(edgeOf(piece)).toBe('outward')
  expect(sayEdge(piece, 'outward', false)).toContain(
    'Along the edge away from the fence, from point to point.',
  )
  expect(sayEdge(piece, 'outward', false)).toContain('100 mm')
})

test('one square end, one point; parallel ends: a point and an inner corner; square ends hook', () => {
  expect(sayEdge(at(0, slope), 'fence', true)).toContain('from the square end to the point')
  expect(sayEdge(at(slope, slope), 'fence', true)).toContain('from the inner corner to the point')
  expect(edgeOf(at(slope, slope))).toBe('fence')
  expect(sayEdge(at(0, 0), 'fence', true)).toBe(
    'Along the edge that lay at the fence, from square end to square end.',
  )
})
