import { readdirSync } from 'node:fs'
import type { Answer, Solve } from '../../src/worker/protocol.ts'
import { expect, test } from '../browser/serve.ts'
import { shopClasses } from '../nest/classes.ts'
import { dice } from '../prove/seed.ts'

// The orders of a shop in the worker that is shipped, in the browser: from the question to the first nest and to the end.

/** The aims of the issue: 95 of 100 proved within this, and the first answer of all but few. */
const aim = { p95: 150, first: 20 }

const at = (share: number, times: readonly number[]) =>
  times.toSorted((a, b) => a - b)[Math.min(times.length - 1, Math.floor(share * times.length))]!

test('300 orders of a shop in a browser worker', async ({ site, page }) => {
  test.setTimeout(600_000)
  const name = readdirSync('dist/assets').find((file) => /^worker-.*\.js$/.test(file))
  await page.goto(site.url)
  const problems = shopClasses.flatMap(({ name: kind, times, make }) =>
    Array.from({ length: times }, (_, time) => make(dice(`${kind} ${time}`, 1))),
  )
  const answers = await page.evaluate(
    async ([address, all]) => {
      const worker = new Worker(new URL(address, location.href), { type: 'module' })
      const found: { first: number; end: number; proved: boolean }[] = []
      for (const [id, problem] of all.entries()) {
        const start = performance.now()
        let first = Number.NaN
        const proved = await new Promise<boolean>((resolve) => {
          worker.onmessage = ({ data }: MessageEvent<Answer>) => {
            if (data.kind === 'better' && Number.isNaN(first)) first = performance.now() - start
            if (data.kind === 'end') resolve(data.why === 'proved')
            if (data.kind === 'failed') resolve(false)
          }
          const ask: Solve = { kind: 'solve', id, problem, budget: { steps: 60_000_000, seconds: 10 } }
          worker.postMessage(ask)
        })
        found.push({ first, end: performance.now() - start, proved })
      }
      return found
    },
    [`assets/${name}`, problems] as const,
  )
  const ends = answers.map(({ end }) => end)
  const firsts = answers.map(({ first }) => first).filter((first) => !Number.isNaN(first))
  const proved = answers.filter((answer) => answer.proved).length
  const ms = (time: number) => time.toFixed(1)
  console.log(
    `${proved} of ${answers.length} proved; median ${ms(at(0.5, ends))} ms, p90 ${ms(at(0.9, ends))}, p95 ${ms(at(0.95, ends))}, ` +
      `most ${ms(Math.max(...ends))}; first answer: median ${ms(at(0.5, firsts))} ms, p95 ${ms(at(0.95, firsts))}`,
  )
  expect(proved).toBeGreaterThanOrEqual(0.98 * answers.length)
  expect(at(0.95, firsts)).toBeLessThan(aim.first)
  expect(at(0.95, ends)).toBeLessThan(aim.p95)
})
