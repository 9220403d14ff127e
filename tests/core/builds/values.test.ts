import { describe, expect, test } from 'vitest'
import { builds } from '../../../src/core/builds/index.ts'
import { startParams } from '../../../src/core/builds/start.ts'
import { valuesOf } from '../../../src/core/builds/values.ts'
import type { Params, RowGiven } from '../../../src/core/job.ts'
import { metric, problems } from './framed.ts'

const context = { units: 'mm', say: (mm: number) => `${mm} mm` } as const

describe('rows of parameters', () => {
  test('a misspelled column is refused by name, with those there are: `rol` of 45 must not be left out in silence', () => {
    const members: readonly RowGiven[] = [{ name: 'Rail', from: 'a', to: 'b', rol: 45 }]
    expect(problems('from-points', { members, joints: [] }, metric)).toContainEqual({
      code: 'unknown-column',
      text: 'Row 1: “rol” is no column of members; it has name, from, to, roll, section.',
      field: 'build.params.members[0].rol',
    })
  })

  const withRows = builds.flatMap((build) =>
    build.params.filter(({ type }) => type === 'rows').map((spec) => ({ build, spec })),
  )

  test('seven or more parameters of the builds are rows', () => {
    expect(withRows.length).toBeGreaterThanOrEqual(7)
  })

  test.each(withRows)('$build.kind: $spec.name takes no column but its own', ({ build, spec }) => {
    const start = startParams(build, 'mm')
    const rows = spec.start as { readonly mm: readonly RowGiven[] } | readonly RowGiven[]
    const first = ('mm' in rows ? rows.mm : rows)[0]!
    // Whatever choice makes the build ask for these rows.
    const asked = build.params
      .filter(({ type }) => type === 'choice')
      .flatMap(({ name, choices }) =>
        (choices ?? []).map(({ value }): Params => ({ ...start, [name]: value })),
      )
      .concat(start)
      .find((given) => !spec.when || spec.when(given))!
    const read = valuesOf(build, { ...asked, [spec.name]: [{ ...first, stray: 1 }] }, context)
    expect(read.ok ? [] : read.problems.map(({ field }) => field)).toContain(
      `build.params.${spec.name}[0].stray`,
    )
  })
})
