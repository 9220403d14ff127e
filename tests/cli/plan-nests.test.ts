import Ajv2020 from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import jobSchema from '../../docs/schemas/tube-job.schema.json'
import type { TubePlan } from '../../src/cli/tube-plan.ts'
import type { Fact } from '../../src/core/facts.ts'
import type { Nest } from '../../src/core/nest.ts'
import { sealNest } from '../../src/core/nest-seal.ts'
import { plan } from '../../src/core/plan.ts'
import { readJobFile, writeJobFile } from '../../src/door/job-file.ts'
import { solve, usualSteps } from '../../src/nest/solve.ts'
import { changedDemo, demoText, type LooseFile, outsideOf, planOf } from './shelf.ts'

// A file that carries nests and facts; stock that is counted; a saw that cannot do it.

const isJob = new Ajv2020({ allErrors: true, strict: true, strictRequired: false }).compile(jobSchema)
const { hash } = outsideOf({})

function demo() {
  const read = readJobFile(demoText('five-sided-frame'))
  if (!read.ok || !read.value.shop) throw new Error('the demo has a job and a shop')
  return { job: read.value.job, shop: read.value.shop }
}

/** A sealed nest for the demo on sticks of this length only, which a new nest need not be. */
async function nestOn(length: number): Promise<Nest> {
  const { job, shop } = demo()
  const made = plan(job, shop)
  if (!made.ok) throw new Error('the demo plans')
  const sections = made.value.demand.map((problem) => {
    const stock = problem.stock.filter((each) => each.length === length)
    const solved = solve({ ...problem, stock }, { steps: usualSteps })
    if (!solved.ok) throw new Error(solved.problems[0]!.text)
    return { ...solved.value.nest, stock: problem.stock }
  })
  return sealNest({ sections, jobs: [job.id], solver: 'by the test' }, hash)
}

const accepting = (nest: string, seq = 1): Fact => ({
  id: `tablet:${seq}`,
  v: 1,
  kind: 'accepted',
  device: 'tablet',
  seq,
  lamport: seq,
  at: '2024-05-04T10:00:00.000Z',
  job: demo().job.id,
  body: { nest },
})

const undoing = (fact: string, seq: number): Fact => ({ ...accepting('', seq), kind: 'undo', body: { fact } })

const lengths = (out: string): number[] =>
  (JSON.parse(out) as TubePlan).nests?.flatMap(({ sticks }) => sticks.map(({ length }) => length)) ?? []

describe('a file with nests', () => {
  test('is planned with the nest that its facts accept: a 7500 stick, where a new nest takes 6000', async () => {
    const { job, shop } = demo()
    const nest = await nestOn(7500)
    const said = await planOf(
      writeJobFile({ job, shop, nests: [nest], facts: [accepting(nest.id)] }),
      '--json',
    )
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(lengths(said.out)).toEqual([7500])
    expect(lengths((await planOf(writeJobFile({ job, shop, nests: [nest] }), '--json')).out)).toEqual([6000])
  })

  test('holds against the schema of the job file, nests of the real solver included', async () => {
    const { job, shop } = demo()
    const nest = await nestOn(7500)
    const text = writeJobFile({ job, shop, nests: [nest], facts: [accepting(nest.id)] })
    expect(isJob(JSON.parse(text)), JSON.stringify(isJob.errors)).toBe(true)
  })

  test('whose acceptance was undone is planned anew, and by the nest again when the undo is undone', async () => {
    const { job, shop } = demo()
    const nest = await nestOn(7500)
    const undone = [accepting(nest.id), undoing('tablet:1', 2)]
    const file = (facts: readonly Fact[]) => writeJobFile({ job, shop, nests: [nest], facts })
    expect(lengths((await planOf(file(undone), '--json')).out)).toEqual([6000])
    expect(lengths((await planOf(file([...undone, undoing('tablet:2', 3)]), '--json')).out)).toEqual([7500])
  })

  test.each([
    ['a piece moved by 1 mm', (nest: Nest) => pieces(nest)[1]!.ends[0], 'x', (x: number) => x + 1],
    ['a drop said longer', (nest: Nest) => nest.sections[0]!.sticks[0]!, 'drop', (drop: number) => drop + 5],
    ['a cost said less', (nest: Nest) => nest.sections[0]!, 'cost', () => 1],
  ] as const)(
    'that was tampered with, %s, is refused for its hash, and under a new one by the judge',
    async (_, at, field, change) => {
      const { job, shop } = demo()
      const nest = structuredClone(await nestOn(6000))
      const place = at(nest) as unknown as Record<string, number>
      place[field] = change(place[field]!)
      const unsealed = await planOf(writeJobFile({ job, shop, nests: [nest], facts: [accepting(nest.id)] }))
      expect(unsealed).toMatchObject({ code: 1, out: '' })
      expect(unsealed.err).toMatch(/^Nest [0-9a-f]{64} was changed after it was accepted[^\n]+\n$/)
      // The same under a hash of its own: now only the judge stands in the way.
      const sealed = await sealNest(nest, hash)
      const text = writeJobFile({ job, shop, nests: [sealed], facts: [accepting(sealed.id)] })
      for (const args of [[], ['--json']]) {
        const said = await planOf(text, ...args)
        expect(said).toMatchObject({ code: 1, out: '' })
        expect(said.err).toMatch(/^The plan does not stand up to its own check and is not shown: [^\n]+\n$/)
      }
    },
  )
})

const pieces = (nest: Nest) => nest.sections[0]!.sticks[0]!.pieces

describe('what cannot be done', () => {
  const counted = (sticks: number) =>
    changedDemo('five-sided-frame', (file: LooseFile) => {
      const sections = file.shop?.sections as { stock: { length: number; count?: number }[] }[]
      // 10 blanks of 500 and kerfs of 2.5 on sticks of 3000: 3000 − 10 − 62.5 holds five, so two sticks hold ten.
      sections[3]!.stock = [{ length: 3000, count: sticks }]
    })

  test('counted stock: two sticks of 3000 hold the ten sides, one leaves five without steel', async () => {
    expect(lengths((await planOf(counted(2), '--json')).out)).toEqual([3000, 3000])
    const said = await planOf(counted(1))
    expect(said).toMatchObject({ code: 1, out: '' })
    expect(said.err).toMatch(/runs out: no steel is left for 5 of A\. Give more sticks/)
  })

  test('three sides: 60° is past a saw of 45°, so the run cuts the blanks and leaves the sides to the hand, with a way out', async () => {
    const text = changedDemo('hexagon-top', (file: LooseFile) => {
      file.job.build.params.sides = 3
    })
    const said = await planOf(text, '--json')
    expect(said).toMatchObject({ code: 0, err: '' })
    const told = JSON.parse(said.out) as TubePlan
    expect(told.nests).toHaveLength(1)
    // Three blanks, and nothing more: each side names the reason and what else can be done.
    expect(told.run?.products.map(({ kind, makes }) => [kind, makes])).toEqual([
      ['blank', ['A1']],
      ['blank', ['A2']],
      ['blank', ['A3']],
      ['drop', undefined],
    ])
    expect(told.run?.left?.map(({ piece }) => piece)).toEqual(['A1', 'A2', 'A3'])
    expect(told.run?.left?.[0]?.why).toContain('60° from square')
    expect(told.run?.left?.[0]?.ways).toContain('a butt joint instead of the miter')
    const warning = told.warnings.map((each) => each.text).find((words) => words.includes('60°'))
    expect(warning).toMatch(/45°/)
    expect(warning).toMatch(/wedge|butt/)
    expect((await planOf(text)).out).toContain(warning)
  })
})
