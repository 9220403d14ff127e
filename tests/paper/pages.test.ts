import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildOf } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import { fold } from '../../src/core/facts/fold.ts'
import { plan } from '../../src/core/plan.ts'
import type { Plan } from '../../src/core/plan-shapes.ts'
import { benchCuts } from '../../src/core/saw/bench.ts'
import type { Shop } from '../../src/core/shop.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { solve } from '../../src/nest/solve.ts'
import { barsHigh } from '../../src/paper/bars.tsx'
import { fitBlocks } from '../../src/paper/fit.ts'
import type { Block } from '../../src/paper/flow.ts'
import { flow } from '../../src/paper/flow.ts'
import { listBlocks } from '../../src/paper/list-sheet.tsx'
import { partBlocks } from '../../src/paper/part-sheet.tsx'
import { plateBlocks } from '../../src/paper/plate-sheet.tsx'
import { recordBlocks } from '../../src/paper/record-sheet.tsx'
import { bodyHigh, bodyWide, pageSizes } from '../../src/paper/size.ts'
import { tagBlocks } from '../../src/paper/tags.ts'
import { wallBlocks } from '../../src/paper/wall.ts'
import { wordsWide } from '../../src/paper/wall-spread.ts'
import { weldBlocks } from '../../src/paper/weld.ts'

const pages = Object.values(pageSizes)

/** Nothing is done of it yet: every figure is a line to fill in by hand. */
const soFar = ({ job, name, quantity }: Plan) => ({
  job: { id: job, name, quantity, build: { kind: 'any', params: {} } },
  progress: fold([]),
  facts: [],
})

/** What stands on the pages of a job as blocks, with the room that a page of it has. */
function sheetsOf(made: Plan, shop: Shop) {
  const cuts = made.run && made.nest ? benchCuts(made.run, made.nest, [], made.job) : []
  return pages.flatMap((page) => {
    const high = bodyHigh(page)
    const of = (name: string, blocks: readonly Block<unknown, unknown>[], room = high) => ({
      name: `${name} on ${page.name}`,
      blocks,
      room,
    })
    return [
      of('wall', wallBlocks(made, cuts, shop, page)),
      of('list', listBlocks(made, shop, page)),
      of('tags', tagBlocks(made, cuts, shop, page)),
      of('fit', fitBlocks(made, shop, page)),
      of('weld', weldBlocks(made, page)),
      of('drawings', partBlocks(made, shop, page)),
      of('plate', plateBlocks(made, shop, page), high - barsHigh),
      of('record', recordBlocks(made, shop, page, soFar(made), 1)),
    ]
  })
}

/** A job with its nest, as the command line makes it; undefined where the job is impossible. */
function planned(kind: string, units: 'in' | 'mm', params: object, quantity: number, shop: Shop) {
  const start = newJob(buildOf(kind)!, units, 'job', 'A job with a name that a person gave it')
  const job = { ...start, quantity, build: { kind, params: { ...start.build.params, ...params } } }
  const bare = plan(job, shop)
  if (!bare.ok) return undefined
  const sections = bare.value.demand.flatMap((problem) => {
    const solved = solve(problem, { steps: 200 })
    return solved.ok ? [solved.value.nest] : []
  })
  const nest = { version: 1, id: 'nest', solver: 'test', jobs: ['job'], sections } as const
  const made = plan(job, shop, nest)
  return made.ok ? made.value : undefined
}

const jobs = fc.record({
  units: fc.constantFrom('in', 'mm') as fc.Arbitrary<'in' | 'mm'>,
  quantity: fc.integer({ min: 1, max: 12 }),
  sides: fc.integer({ min: 3, max: 12 }),
  size: fc.integer({ min: 300, max: 1500 }),
  legs: fc.boolean(),
  lean: fc.integer({ min: 0, max: 20 }),
  other: fc.integer({ min: 0, max: 20 }),
  readsAtSquare: fc.constantFrom(0, 90) as fc.Arbitrary<0 | 90>,
  bevel: fc.constantFrom(0, 45),
})

describe('random jobs on paper', () => {
  test('no strip is higher than a page, and no set-up that fits on one is parted', () => {
    let seen = 0
    let compound = 0
    fc.assert(
      fc.property(jobs, ({ units, quantity, sides, size, legs, lean, other, readsAtSquare, bevel }) => {
        const base = startShop(units)
        const saw = base.saws[0]!
        const shop: Shop = {
          ...base,
          saws: [
            { ...saw, readsAtSquare, limits: { ...saw.limits, bevel, towardStop: 60, awayFromStop: 60 } },
            { ...saw, id: 'second', name: 'The saw at the back of the shop' },
          ],
        }
        const length = units === 'mm' ? size : `${(size / 25.4).toFixed(3)}`
        const made = legs
          ? planned(
              'four-leg',
              units,
              { splay: 'angles', leanLength: lean, leanWidth: other, top: 'plate' },
              quantity,
              shop,
            )
          : planned('polygon-frame', units, { sides, size: length, top: 'plate' }, quantity, shop)
        if (!made?.run) return
        seen += 1
        if (made.run.setUps.some(({ roll, tilt, ramp }) => roll !== 0 || tilt !== 0 || ramp !== 0))
          compound += 1
        for (const { name, blocks, room } of sheetsOf(made, shop)) {
          for (const { head, strips } of blocks)
            for (const strip of strips)
              if (head.high + strip.high > room)
                throw new Error(
                  `${name}: ${head.high} + ${strip.high} mm in ${room}: ${JSON.stringify(strip.what)}`,
                )
          const parted = flow(blocks, room)
            .flat()
            .filter(({ again }) => again)
          for (const { head } of parted) {
            const block = blocks.find((one) => one.head.what === head)!
            const high = block.strips.reduce((sum, strip) => sum + strip.high, block.head.high)
            if (block.whole && high <= room)
              throw new Error(`${name}: ${JSON.stringify(head)} is parted at ${high} mm`)
          }
        }
      }),
      { numRuns: 12, seed: 6 },
    )
    // Else nothing was tried.
    expect(seen).toBeGreaterThan(8)
    expect(compound).toBeGreaterThan(2)
  })

  test('words have at least 100 mm beside one picture, and the whole width under two', () => {
    const cut = { setUp: { tilt: 0, roll: 0, ramp: 0, printed: {} } } as Parameters<typeof wordsWide>[0][0]
    for (const page of pages) {
      expect(wordsWide([cut], page)).toBeGreaterThanOrEqual(100)
      expect(wordsWide([cut, cut], page)).toBe(bodyWide(page))
    }
  })
})
