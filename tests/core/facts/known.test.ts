import { expect, test } from 'vitest'
import { known, newestVersion } from '../../../src/core/facts/known.ts'
import { blank, tablet } from './log.ts'

// No kind has an old version yet: the path is tried with steps made up here.
const steps = {
  cut: [
    // 1 to 2: the piece was called `name`.
    (body: unknown) => {
      const { name, ...rest } = body as { name: string }
      return { ...rest, label: name }
    },
    // 2 to 3: stages got words.
    (body: unknown) => ({ ...(body as object), stage: 'blank' }),
  ],
}

test('a cut of version 1 is read through both steps, of version 2 through the second, of 3 as it is', () => {
  const fact = tablet('a').write('cut', blank('S1'))
  const { label: _label, ...unlabeled } = blank('S1')
  const first = known({ ...fact, v: 1, body: { ...unlabeled, name: 'A1.b', stage: 1 } }, steps)
  const second = known({ ...fact, v: 2, body: { ...blank('S1'), stage: 1 } }, steps)
  const third = known({ ...fact, v: 3 }, steps)
  for (const read of [first, second, third]) expect(read).toEqual({ ...fact, v: 3 })
})

test('version 4 is of a newer program', () => {
  const fact = tablet('a').write('cut', blank('S1'))
  expect(known({ ...fact, v: 4 }, steps)).toBeUndefined()
})

test('a step that gives what cannot be read makes the fact unknown, not a crash', () => {
  const fact = tablet('a').write('undo', { fact: 'a:9' })
  expect(known(fact, { undo: [() => ({ fact: 9 })] })).toBeUndefined()
})

test('what is written now is version 1 of every kind', () => {
  expect(newestVersion('cut')).toBe(1)
  expect(newestVersion('corrected')).toBe(1)
})
