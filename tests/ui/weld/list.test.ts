import { describe, expect, test } from 'vitest'
import type { WeldStep } from '../../../src/core/plan-shapes.ts'
import { cautionsFor } from '../../../src/ui/weld/caution.ts'
import { spread } from '../../../src/ui/weld/joints.tsx'
import { jointNumbers, jointState, stagesOf, tickOf } from '../../../src/ui/weld/list.ts'
import { framed, metric } from '../../core/builds/framed.ts'
import { plan, steps } from './weld-plan.ts'

const withDone = (ids: readonly string[]) => (step: WeldStep) => ids.includes(step.id)

describe('the list', () => {
  test('joints are numbered as the frame names them, though the work begins at another', () => {
    expect([...jointNumbers(plan)]).toEqual([
      ['top/corner-1', 1],
      ['top/corner-3', 2],
    ])
  })

  test('fitting and tacking are one stretch, welding and turning the next', () => {
    expect(stagesOf(plan).map(({ title, steps: of }) => [title, of.length])).toEqual([
      ['Top frame: fit and tack', 4],
      ['Top frame: weld', 4],
    ])
  })

  test('a tack is tacked, a pass welded, everything else checked', () => {
    expect(steps.map(tickOf)).toEqual([
      'checked',
      'tacked',
      'checked',
      'tacked',
      'welded',
      'welded',
      'checked',
      'welded',
    ])
  })

  test('a joint is to go, then tacked, then welded only with its last pass', () => {
    const corner = 'top/corner-1'
    expect(jointState(corner, steps, withDone([]), undefined)).toBe('to go')
    expect(jointState(corner, steps, withDone(['tack:1']), undefined)).toBe('tacked')
    expect(jointState(corner, steps, withDone(['tack:1', 'pass:1']), undefined)).toBe('tacked')
    expect(jointState(corner, steps, withDone(['tack:1', 'pass:1', 'pass:1b']), undefined)).toBe('welded')
    expect(jointState(corner, steps, withDone([]), corner)).toBe('on now')
  })
})

test('a stage that names itself is not given a kind of work', () => {
  const own = { ...plan.weld.steps[0]!, id: 'fit:clean', stage: 'Before the first tack' }
  expect(
    stagesOf({ ...plan, weld: { ...plan.weld, steps: [own, ...steps] } }).map(({ title }) => title),
  ).toEqual(['Before the first tack', 'Top frame: fit and tack', 'Top frame: weld'])
})

describe('cautions stand where the danger begins', () => {
  const at = (id: string) => cautionsFor(steps.find((step) => step.id === id)!, plan, 'kg').join(' ')

  test('coatings before anything is tacked, fire watch of half an hour within 35 ft at the first tack (29 CFR 1910.252(a)(2))', () => {
    expect(at('fit:top')).toMatch(/galvanized/i)
    expect(at('tack:3')).toContain('35 ft')
    expect(at('tack:3')).toContain('half an hour')
    expect(at('tack:3')).toMatch(/licensed electrician/)
    expect(at('tack:1')).toBe('')
  })

  test('fume at the first pass and not again at the second', () => {
    expect(at('pass:3')).toMatch(/fume/)
    expect(at('pass:1')).toBe('')
  })

  test('turning 23 kg asks for nobody else, 23.1 kg does (NIOSH 94-110 load constant)', () => {
    const turn = steps.find((step) => step.kind === 'turn')!
    expect(cautionsFor({ ...turn, kg: 23 }, plan, 'kg').join(' ')).not.toMatch(/second person/)
    expect(cautionsFor({ ...turn, kg: 23.1 }, plan, 'kg').join(' ')).toMatch(/turn it with a second person/)
    const lifted = { ...turn, kind: 'fit' as const, id: 'fit:all' }
    expect(cautionsFor({ ...lifted, kg: 23.1 }, plan, 'kg').join(' ')).toMatch(
      /^About 23\.1 kg by estimate, .* lift it with a second person/,
    )
    expect(cautionsFor({ ...lifted, kg: 23 }, plan, 'kg').join(' ')).not.toMatch(/lift/)
  })

  test('a grade that names a coat is coated steel; others are only asked about', () => {
    const { members } = framed('polygon-frame', {}, metric).frame
    const graded = (grade?: string) => ({
      ...plan,
      frame: {
        ...plan.frame,
        members: members.map((of) => ({ ...of, section: { ...of.section, ...(grade ? { grade } : {}) } })),
      },
    })
    const said = (grade?: string) => cautionsFor(steps[0]!, graded(grade), 'kg').join(' ')
    expect(said()).toMatch(/^If any of it is galvanized/)
    expect(said('A500 B')).toMatch(/^If any of it/)
    expect(said('A500 B, galvanized')).toMatch(/^This steel is coated/)
  })

  test('where the arc begins: fresh air, and that a confined space is for trained people (29 CFR 1910.252(c)(4))', () => {
    expect(at('pass:3')).toMatch(/confined space is work for people trained/)
  })

  test('a cap that closes a tube asks for a vent', () => {
    const cap = { ...plan.frame.joints[0]!, id: 'foot/cap', kind: 'cap' as const }
    const tack: WeldStep = {
      id: 'tack:cap',
      kind: 'tack',
      assembly: 'all',
      joint: 'foot/cap',
      text: '',
      why: '',
    }
    const capped = {
      ...plan,
      frame: { ...plan.frame, joints: [...plan.frame.joints, cap] },
      weld: { ...plan.weld, steps: [...steps, tack] },
    }
    expect(cautionsFor(tack, capped, 'kg').join(' ')).toContain('vent hole')
  })
})

test('numbers on one spot are moved apart by at least 33 px, with a line back', () => {
  const joint = (number: number) => ({ id: `${number}`, number, state: 'to go' as const })
  const spots = spread([1, 2, 3, 4, 5].map((n) => ({ joint: joint(n), at: [100, 100] as const })))
  for (const [at, one] of spots.entries())
    for (const two of spots.slice(at + 1))
      expect(Math.hypot(one.at[0] - two.at[0], one.at[1] - two.at[1])).toBeGreaterThanOrEqual(33)
  expect(spots[0]!.from).toBeUndefined()
  expect(spots.slice(1).every(({ from }) => from?.[0] === 100)).toBe(true)
})
