// Random jobs of every kind of build, proven on exact solids: the frame, and what the saw makes of its set-up records.
import { describe, expect, test } from 'vitest'
import { builds } from '../../src/core/builds/index.ts'
import { proveOne } from '../solids/proof.ts'
import { dice, seed } from './seed.ts'

/** Jobs of each build that are planned and proven; refused ones do not count. */
const many = 100

describe.each(builds.map(({ kind }) => kind))('%s on exact solids', (kind) => {
  test(`${many} random jobs (seed ${seed})`, () => {
    const count = { proven: 0, refused: 0, pieces: 0, compound: 0, left: 0 }
    for (let at = 1; count.proven < many; at++) {
      if (at > 20 * many) throw new Error(`only ${count.proven} of ${at} jobs were not refused`)
      const told = proveOne(kind, dice(`solids ${kind} ${at}`))
      if (told.refused !== undefined) {
        count.refused += 1
        continue
      }
      expect(
        told.faults,
        `job ${at}, seed ${seed}: ${JSON.stringify({ job: told.job, shop: told.shop })}`,
      ).toEqual([])
      count.proven += 1
      count.pieces += told.pieces
      count.compound += told.compound
      count.left += told.left.length
    }
    console.log(`solids ${kind}, seed ${seed}: ${JSON.stringify(count)}`)
    // What is left for the hand proves nothing of the saw.
    expect(count.left).toBeLessThan(count.pieces / 4)
  })
})
