// Every kind of build, some random jobs each, proven on exact solids (more of them: tests/prove/solids.test.ts).
import { describe, expect, test } from 'vitest'
import { builds } from '../../src/core/builds/index.ts'
import { dice } from '../prove/seed.ts'
import { measuredKinds } from './asked.ts'
import { paramsOf, proveOne } from './proof.ts'

const seeds = [1, 2, 3, 4, 5]

describe.each(builds.map(({ kind }) => kind))('%s', (kind) => {
  test('has random parameters and sizes to measure on the steel', () => {
    expect(paramsOf(kind)).toBeTypeOf('function')
    expect(measuredKinds).toContain(kind)
  })

  test.each(seeds)(
    'seed %i: nothing overlaps, ends lie on their mates, the saw makes what was drawn',
    (from) => {
      const roll = dice(`solids ${kind}`, from)
      for (let at = 0; at < 50; at++) {
        const told = proveOne(kind, roll)
        if (told.refused !== undefined) continue
        expect(told.faults, JSON.stringify({ job: told.job, shop: told.shop })).toEqual([])
        return
      }
      throw new Error('fifty jobs in a row were refused')
    },
  )
})
