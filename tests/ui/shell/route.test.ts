import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { jobStations, pathOf, readRoute } from '../../../src/ui/shell/route.ts'

describe('an address', () => {
  test.each([
    ['/', { station: 'jobs' }],
    ['', { station: 'jobs' }],
    ['/shop', { station: 'shop' }],
    ['/shared', { station: 'shared' }],
    ['/job/a1', { station: 'sizes', job: 'a1' }],
    ['/job/a1/saw', { station: 'saw', job: 'a1' }],
    ['/job/a1/saw/A/blank/1', { station: 'saw', job: 'a1', at: 'A/blank/1' }],
    ['/job/a%2F1/weld', { station: 'weld', job: 'a/1' }],
    ['/open/eJyr', { station: 'open', rest: 'eJyr' }],
  ])('%j is read', (path, route) => expect(readRoute(path)).toEqual(route))

  test.each(['/job', '/job/a1/kitchen', '/else', '/shop/more', '/job/%E0%A4%A/saw'])(
    '%j leads nowhere, and is said to',
    (path) => expect(readRoute(path)).toEqual({ station: 'lost', path }),
  )

  test('written and read again it is the same, whatever the ids hold', () => {
    const id = fc.string({ minLength: 1, unit: 'grapheme' })
    const at = fc
      .array(fc.string({ minLength: 1, maxLength: 6 }), { maxLength: 3 })
      .map((list) => list.join('/'))
    fc.assert(
      fc.property(id, fc.constantFrom(...jobStations), at, (job, station, set) => {
        const pieces = set.split('/').filter((piece) => piece !== '')
        const route = pieces.length > 0 ? { station, job, at: pieces.join('/') } : { station, job }
        expect(readRoute(pathOf(route))).toEqual(route)
      }),
    )
  })
})
