import { expect, test } from 'vitest'
import { builds } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import { draftOf } from '../../src/core/draft.ts'
import { plan } from '../../src/core/plan.ts'
import { startShop } from '../../src/core/shop-start.ts'

test.each(builds.map((build) => [build.kind, build] as const))(
  'what is drawn of a %s while it is dragged is what is drawn when it is let go',
  (_, build) => {
    const job = newJob(build, 'mm', 'j')
    const [draft, made] = [draftOf(job, startShop('mm')), plan(job, startShop('mm'))]
    if (!draft.ok) {
      expect(made).toEqual(draft)
      return
    }
    expect(made).toMatchObject({ ok: true, value: draft.value })
  },
)

test('a hexagon dragged to 80 in tube of 50 is refused in the words of the plan', () => {
  const start = newJob(builds.find(({ kind }) => kind === 'polygon-frame')!, 'mm', 'j')
  const job = { ...start, build: { ...start.build, params: { ...start.build.params, size: 80 } } }
  const draft = draftOf(job, startShop('mm'))
  expect(draft.ok).toBe(false)
  expect(draft).toEqual(plan(job, startShop('mm')))
})
