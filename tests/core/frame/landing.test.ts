import { expect, test } from 'vitest'
import { flat } from '../../../src/core/frame/flat.ts'
import type { Joint } from '../../../src/core/frame/frame.ts'
import { miter } from '../../../src/core/frame/joint.ts'
import { landingsOf, landingWarnings } from '../../../src/core/frame/landing.ts'
import { member } from '../../../src/core/frame/member.ts'
import type { Section } from '../../../src/core/section/section.ts'

const tube = (width: number): Section => ({
  kind: 'square-tube',
  width,
  height: width,
  wall: 3,
  cornerRadius: 6,
})
const say = (mm: number) => `${mm} mm`

/** A leg of 40 under the mitered corner of two sides of 40 whose undersides lie at z = 700, its axis at (x, y). */
function corner(x: number, y: number) {
  const one = member('one', 'Long side', tube(40), [500, 0, 720], [0, 0, 720], [0, 0, 1])
  const two = member('two', 'Short side', tube(40), [0, 0, 720], [0, 400, 720], [0, 0, 1])
  const { members } = miter('corner', one, 'B', two, 'A', [0, 0, 720], 0)
  const leg = flat(member('leg', 'Leg', tube(40), [x, y, 0], [x, y, 700], [0, 1, 0]), 'B', 700, 'one')
  const joints = ['one', 'two'].map(
    (on): Joint => ({ id: on, kind: 'flat', members: ['leg', on], at: [x, y, 700], ends: ['B', 'side'] }),
  )
  return { members: [...members, leg], joints }
}

test('a leg under a mitered corner lands on both sides and gets no warning; 5 mm further out it does', () => {
  expect(landingsOf(corner(0, 0)).map(({ on, by }) => [on, by])).toEqual([
    ['one', 'leg'],
    ['two', 'leg'],
  ])
  expect(landingWarnings(corner(0, 0), say)).toEqual([])
  const codes = landingWarnings(corner(-5, 0), say).map(({ code }) => code)
  expect(codes.length).toBeGreaterThan(0)
})
