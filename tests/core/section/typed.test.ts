import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { resolveSection } from '../../../src/core/section/given.ts'
import { sectionName } from '../../../src/core/section/name.ts'
import type { Section, SectionKind } from '../../../src/core/section/section.ts'
import { readSection } from '../../../src/core/section/typed.ts'

const resolved = (text: string, units: 'in' | 'mm' = 'in') => {
  const given = readSection(text, units)
  if (!given.ok) return given.problems[0]!.text
  const section = resolveSection(given.value, units)
  if (!section.ok) throw new Error(section.problems[0]!.text)
  const { kind, width, height, wall } = section.value
  return [kind, width, height, wall]
}

describe('a section as it is written in a cut list', () => {
  // Walls: BWG 16 ga = 0.065 in (reference tables, gauges).
  test.each([
    ['2x2x1/8', 'in', ['square-tube', 50.8, 50.8, 3.175]],
    ['2 × 1 × 16 ga', 'in', ['rect-tube', 50.8, 25.4, 1.651]],
    ['1 1/2 x 1 1/2 x .065', 'in', ['square-tube', 38.1, 38.1, 1.651]],
    ['60x40x3', 'mm', ['rect-tube', 60, 40, 3]],
    ['60 × 40 × 3 mm', 'in', ['rect-tube', 60, 40, 3]],
    ['2 x 2 x 1/8 in', 'mm', ['square-tube', 50.8, 50.8, 3.175]],
    ['2 × 2 in × 16 ga', 'mm', ['square-tube', 50.8, 50.8, 1.651]],
    ['sq 40 x 3', 'mm', ['square-tube', 40, 40, 3]],
    ['Square tube 40 x 40 x 3', 'mm', ['square-tube', 40, 40, 3]],
    ['round 2 x 0.065', 'in', ['round-tube', 50.8, 50.8, 1.651]],
    ['⌀ 42.4 × 2.6', 'mm', ['round-tube', 42.4, 42.4, 2.6]],
    ['flat 2 x 1/4', 'in', ['flat-bar', 50.8, 6.35, 0]],
    ['angle 2 x 2 x 1/8', 'in', ['angle', 50.8, 50.8, 3.175]],
    ['round bar 1/2', 'in', ['round-bar', 12.7, 12.7, 0]],
  ] as const)('%s read in %s', (text, units, section) => {
    expect(resolved(text, units)).toEqual(
      section.map((value) => (typeof value === 'number' ? expect.closeTo(value, 9) : value)),
    )
  })

  test.each([
    ['', /not understood as a section/],
    ['2 x 1/8', /not understood .* with its kind/],
    ['2 x x 1/8', /not understood/],
    ['2x2x2x2', /not understood/],
    ['wood', /not understood/],
    ['2 x 2 x 1', /wall of 1 in .* less than half/],
    ['2 x 2 x 99 ga', /99 ga is in no table/],
    ['2 x 2 x 7/0', /0 below/],
  ])('%j is refused with what is possible', (text, why) => expect(resolved(text)).toMatch(why))

  test('what sectionName says is read back to the same, for any kind and size, in an inch or a metric shop', () => {
    const kinds: readonly SectionKind[] = [
      'square-tube',
      'rect-tube',
      'round-tube',
      'flat-bar',
      'angle',
      'round-bar',
      'square-bar',
    ]
    const one = fc.record({
      kind: fc.constantFrom(...kinds),
      w: fc.integer({ min: 8, max: 64 }),
      h: fc.integer({ min: 8, max: 64 }),
      inches: fc.boolean(),
      // 16 ga, 1/8 in, 3/32 in, and 0.0485 in, which is neither a gauge nor a fraction.
      thin: fc.constantFrom(1.651, 3.175, 2.38125, 1.2319),
    })
    fc.assert(
      fc.property(
        one,
        fc.constantFrom('in' as const, 'mm' as const),
        ({ kind, w, h, inches, thin }, units) => {
          const unit = inches ? 25.4 / 8 : 2
          const equal = !['rect-tube', 'flat-bar', 'angle'].includes(kind)
          const solid = ['flat-bar', 'round-bar', 'square-bar'].includes(kind)
          const height = equal ? w : h
          const wall = solid ? 0 : inches ? thin : 1.5
          const named = kind === 'rect-tube' && w === height ? 'square-tube' : kind
          const section: Section = {
            kind: named,
            width: w * unit,
            height: height * unit,
            wall,
            cornerRadius: 0,
          }
          const reading =
            units === 'in'
              ? ({ kind: 'inch-fraction', denominator: 16 } as const)
              : ({ kind: 'mm', step: 1 } as const)
          const name = sectionName(section, reading)
          expect(resolved(name, units), name).toEqual([
            named,
            expect.closeTo(section.width, 6),
            expect.closeTo(section.height, 6),
            expect.closeTo(wall, 6),
          ])
        },
      ),
    )
  })
})
