import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { canonical, isSealed, sealNest } from '../../src/core/nest-seal.ts'
import { solve } from '../../src/nest/solve.ts'
import { mill, part, problem } from './stock.ts'

const hash = async (text: string) => createHash('sha256').update(text).digest('hex')

function section(mid: number, width: number) {
  const given = problem([part(mid, 5)], [mill(3000)], { kerf: 2.5 })
  const result = solve({ ...given, section: { ...given.section, width } }, { steps: 1_000_000 })
  if (!result.ok) throw new Error('solvable')
  return result.value.nest
}

const input = { sections: [section(1200, 40), section(900, 50)], jobs: ['job-1'], solver: 'test 1' }

describe('a sealed nest', () => {
  test('numbers its sticks through all sections: 3 and 2 are S1 to S5', async () => {
    const nest = await sealNest(input, hash)
    expect(nest.sections.map(({ sticks }) => sticks.map(({ id }) => id))).toEqual([
      ['S1', 'S2', 'S3'],
      ['S4', 'S5'],
    ])
  })

  test('has the hash of its content as id, which any change breaks', async () => {
    const nest = await sealNest(input, hash)
    expect(nest.id).toMatch(/^[0-9a-f]{64}$/)
    expect(await isSealed(nest, hash)).toBe(true)
    expect(await isSealed({ ...nest, solver: 'test 2' }, hash)).toBe(false)
    const [first, second] = nest.sections
    expect(await isSealed({ ...nest, sections: [{ ...first!, cost: first!.cost + 1 }, second!] }, hash)).toBe(
      false,
    )
  })

  test('keeps its id through a file: written and read back, fields in any order', async () => {
    const nest = await sealNest({ ...input, parent: 'before' }, hash)
    const back = JSON.parse(JSON.stringify(nest))
    const turned = Object.fromEntries(Object.entries(back).reverse()) as unknown as typeof nest
    expect(await isSealed(turned, hash)).toBe(true)
  })

  test('with another parent, solver or job is another nest', async () => {
    const ids = await Promise.all(
      [input, { ...input, parent: 'x' }, { ...input, solver: 'other' }, { ...input, jobs: ['job-2'] }].map(
        async (each) => (await sealNest(each, hash)).id,
      ),
    )
    expect(new Set(ids).size).toBe(4)
  })

  test('canonical text: keys in order, absent fields gone, −0 is 0', () => {
    expect(canonical({ b: [1, { d: undefined, c: -0 }], a: 'x"' })).toBe('{"a":"x\\"","b":[1,{"c":0}]}')
  })
})
