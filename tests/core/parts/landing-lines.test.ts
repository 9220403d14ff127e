import { expect, test } from 'vitest'
import { faceWords } from '../../../src/core/parts/landing-lines.ts'
import { framed, metric } from '../builds/framed.ts'

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
