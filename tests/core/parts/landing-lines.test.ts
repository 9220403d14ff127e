import { expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import type { Params } from '../../../src/core/job.ts'
import { faceWords, landingLines } from '../../../src/core/parts/landing-lines.ts'
import { plan } from '../../../src/core/plan.ts'
import { framed, metric, tube } from '../builds/framed.ts'

test('faces are named as the member stands: an upright post has front, back, left and right, no upper face', () => {
  const { frame } = framed('pedestal', {}, metric)
  const post = frame.members.find(({ id }) => id === 'base/post')!
  expect((['+y', '-y', '+z', '-z'] as const).map((face) => faceWords(post, face)).sort()).toEqual([
    'back side',
    'front side',
    'left side',
    'right side',
  ])
  const side = frame.members.find(({ id }) => id === 'top/side-1')!
  expect(faceWords(side, '-z')).toBe('underside')
  expect(faceWords(side, '+y')).toBe('left side, seen from end A')
})

const linesOf = (kind: string, params: Params = {}) => {
  const job = newJob(buildOf(kind)!, 'mm', 'j')
  const made = plan({ ...job, build: { kind, params: { ...job.build.params, ...params } } }, metric)
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return { landings: made.value.landings, lines: landingLines(made.value) }
}

test('of five spider bars two come to the back of the post at one height: both are named on its line', () => {
  const { lines } = linesOf('pedestal', {
    sides: 5,
    arms: '5',
    armsMeet: 'hub plate',
    hubSize: 240,
    armsPoint: 'to a corner',
    spiderBars: 5,
    spiderPoint: 'to a corner',
    postSection: tube(100, 4),
    barSection: tube(25, 2),
  })
  const onPost = lines.filter(({ on }) => on === 'A, Post').map(({ by, face }) => `${by.slice(3)}: ${face}`)
  expect(onPost).toEqual([
    'Spider bar 1: front side',
    'Spider bar 2: right side',
    'Spider bar 3 and 4: back side',
    'Spider bar 5: left side',
  ])
})

test('a rack of three bays with braces in every tier: 8 uprights that read the same are one line, not one each', () => {
  const { lines, landings } = linesOf('rack', { bays: 3, length: 2400, bracesIn: 'every' })
  expect(
    lines.some(
      ({ on, by, face }) => on === 'A, Upright × 3' && /Front rail$/.test(by) && face === 'right side',
    ),
  ).toBe(true)
  expect(lines.some(({ on, by }) => on === 'A, Upright × 4' && /Cross rail$/.test(by))).toBe(true)
  expect(
    new Set(
      lines.map(({ on, by, face, landing: { printed } }) =>
        [on, by, face, printed.near.text, printed.far.text].join(),
      ),
    ).size,
  ).toBe(lines.length)
  expect(landings.length).toBeGreaterThan(80)
  expect(lines.length).toBeLessThan(landings.length / 2)
})
