import { describe, expect, test } from 'vitest'
import { answer } from '../../src/worker/answer.ts'
import type { Answer, Solve } from '../../src/worker/protocol.ts'
import { drop, mill, part, problem } from '../nest/stock.ts'

const never = () => false

async function answersTo(request: Pick<Solve, 'problem'>, stop = never): Promise<Answer[]> {
  const said: Answer[] = []
  await answer({ kind: 'solve', id: 7, budget: { steps: 5_000_000, seconds: 5 }, ...request }, stop, (each) =>
    said.push(each),
  )
  return said
}

describe('what the worker says', () => {
  test('a better nest and then the proved end, all under the id of the request', async () => {
    const said = await answersTo({
      problem: problem([part(1000, 10)], [mill(6000)], { kerf: 2.5, trim: 10 }),
    })
    expect(said.map(({ kind }) => kind)).toEqual(['better', 'end'])
    expect(said.every(({ id }) => id === 7)).toBe(true)
    expect(said.at(-1)).toMatchObject({ why: 'proved', nest: { cost: 12000, proved: true } })
  })

  test('plain data that can be posted', async () => {
    const said = await answersTo({ problem: problem([part(1000, 10)], [mill(6000)]) })
    expect(structuredClone(said)).toEqual(said)
  })

  test('a part of 6000.1 on sticks of 6000 fails with both numbers', async () => {
    const [said] = await answersTo({ problem: problem([part(6000.1, 1, { mark: 'A' })], [mill(6000)]) })
    expect(said).toMatchObject({ kind: 'failed' })
    expect(said?.kind === 'failed' && said.error).toMatch(/Part A needs 6000\.1 mm.*6000 mm/)
  })

  test('two pieces of 900 and one drop of 1000 fail: there is no nest of all pieces to work by', async () => {
    const said = await answersTo({ problem: problem([part(900, 2, { mark: 'A' })], [drop(1000, 'R1')]) })
    expect(said).toEqual([
      {
        kind: 'failed',
        id: 7,
        error: 'The stock on hand holds 1 of 2 pieces; there is no room for 1 × A.',
      },
    ])
  })

  test('stopped at once, the end carries a nest of all pieces that is not called proved', async () => {
    const parts = Array.from({ length: 60 }, (_, at) => part(20.5 + at, 2))
    const said = await answersTo({ problem: problem(parts, [mill(150)]) }, () => true)
    const end = said.at(-1)
    if (end?.kind !== 'end') throw new Error('an end was expected')
    expect(end.why).toBe('budget')
    expect(end.nest.sticks.flatMap(({ pieces }) => pieces)).toHaveLength(120)
    expect(end.nest.proved).toBe(false)
  })
})
