import { describe, expect, it } from 'vitest'
import { builds } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { landingWarnings } from '../../../src/core/frame/landing.ts'
import { plan } from '../../../src/core/plan.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { framed, inches, metric } from './framed.ts'

/** Half legs of the same tube as the leg that they stop on are as wide as its face: a flare seam, whatever the size. */
const unavoidable: Readonly<Record<string, readonly string[]>> = {
  trestle: ['landing-wider-than-flat', 'landing-wider-than-flat'],
}

describe('a new job of each build', () => {
  for (const build of builds)
    for (const units of ['in', 'mm'] as const)
      it(`${build.title}, ${units}: starts with no warning that its starting values could avoid`, () => {
        const made = plan(newJob(build, units, 'new'), startShop(units))
        if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join(' '))
        expect(made.value.warnings.map(({ code }) => code)).toEqual(unavoidable[build.kind] ?? [])
        for (const { members } of made.value.warnings)
          expect(members?.every((id) => id.includes('/leg-'))).toBe(true)
      })

  it.each([
    ['trestle', { style: 'A legs' }],
    ['pedestal', { base: 'base plate' }],
    ['pedestal', { armsMeet: 'hub plate' }],
    ['rack', { braces: 'back and ends', bracesIn: 'every' }],
  ] as const)('%s with %j: none either', (kind, params) => {
    for (const shop of [metric, inches]) {
      const { frame } = framed(kind, params, shop)
      expect([...frame.warnings, ...landingWarnings(frame, String)].map(({ text }) => text)).toEqual([])
    }
  })
})
