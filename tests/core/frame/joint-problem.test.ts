import { describe, expect, test } from 'vitest'
import { buttProblem, flatProblem, miterProblem } from '../../../src/core/frame/joint-problem.ts'
import { member } from '../../../src/core/frame/member.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Section } from '../../../src/core/section/section.ts'

const tube: Section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 }
const pipe = (width: number): Section => ({
  kind: 'round-tube',
  width,
  height: width,
  wall: 3,
  cornerRadius: 0,
})
const say = (mm: number) => `${+mm.toFixed(3)} mm`
const bar = (a: Vec3, b: Vec3, section = tube, name = 'Bar') => member('bar', name, section, a, b, [0, 0, 1])
const rail = (section = tube) => member('rail', 'Rail', section, [0, 0, 0], [1000, 0, 0], [0, 0, 1])
const code = (problem: { code: string } | undefined) => problem?.code

describe('members that cannot be joined are named, and those that can are not', () => {
  test('a miter of parallel members, folded or in one line; at 1° it is one', () => {
    for (const to of [
      [-1000, 0, 0],
      [2000, 0, 0],
    ] as const)
      expect(code(miterProblem(rail(), bar([1000, 0, 0], [1000 + to[0], 0, 0]), say))).toBe('miter-parallel')
    expect(miterProblem(rail(), bar([1000, 0, 0], [2000, 17.455, 0]), say)).toBeUndefined()
  })

  test('a miter of axes that pass 5 mm apart', () => {
    const problem = miterProblem(rail(), bar([1000, 0, 5], [1000, 500, 5]), say)
    expect(code(problem)).toBe('miter-apart')
    expect(problem?.text).toContain('5 mm')
  })

  test('round mitered to square, 48.3 to 42.4; two of 48.3 can be', () => {
    const to = (section: Section) => bar([1000, 0, 0], [1000, 500, 0], section)
    expect(code(miterProblem(rail(), to(pipe(48.3)), say))).toBe('miter-round-square')
    expect(code(miterProblem(rail(pipe(48.3)), to(pipe(42.4)), say))).toBe('miter-round-unequal')
    expect(miterProblem(rail(pipe(48.3)), to(pipe(48.3)), say)).toBeUndefined()
  })

  test('a butt along the rail, beside its end, on a round one, from inside it; at 500 of 1000 it can be', () => {
    expect(code(buttProblem(bar([0, 60, 0], [900, 60, 0]), 'B', rail()))).toBe('butt-parallel')
    expect(code(buttProblem(bar([1100, 500, 0], [1100, 0, 0]), 'B', rail()))).toBe('butt-misses')
    expect(code(buttProblem(bar([500, 500, 0], [500, 0, 0]), 'B', rail(pipe(60.3))))).toBe('butt-on-round')
    expect(code(buttProblem(bar([500, 15, 0], [500, 0, 0]), 'B', rail()))).toBe('butt-no-steel')
    expect(buttProblem(bar([500, 500, 0], [500, 0, 0]), 'B', rail())).toBeUndefined()
  })

  test('a rail that is to stand on the floor, and a leg that can', () => {
    expect(code(flatProblem(rail()))).toBe('flat-along')
    expect(flatProblem(bar([0, 0, 700], [100, 0, 0]))).toBeUndefined()
  })
})
