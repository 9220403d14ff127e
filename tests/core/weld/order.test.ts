import { describe, expect, test } from 'vitest'
import { partsOf } from '../../../src/core/parts/parts.ts'
import { plateMass } from '../../../src/core/parts/plates.ts'
import { jointNames } from '../../../src/core/weld/joint-name.ts'
import { opposite } from '../../../src/core/weld/opposite.ts'
import { weldPlan } from '../../../src/core/weld/order.ts'
import { framed, metric, onBars, tube } from '../builds/framed.ts'

describe('opposite joint next, no neighbors in a row (common practice)', () => {
  test.each([3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16])('ring of %i', (n) => {
    const order = opposite(Array.from({ length: n }, (_, at) => at))
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, at) => at))
    const steps = order.slice(1).map((at, k) => {
      const apart = Math.abs(at - order[k]!)
      return Math.min(apart, n - apart)
    })
    if (n >= 5) expect(Math.min(...steps)).toBeGreaterThan(1)
    expect(steps[0]).toBe(Math.floor(n / 2))
  })
})

describe('tacks and passes of a hexagon', () => {
  const { frame, shop } = framed('polygon-frame', { sides: 6, size: 700, section: tube(40, 3) }, metric)
  const plan = weldPlan(frame, shop)

  test('24 seams: 6 each outside, inside, top, bottom; 40 mm upright, 40/cos 30° flat', () => {
    const lengths = (kind: string) =>
      plan.seams.filter((seam) => seam.class === kind).map(({ length }) => length)
    for (const kind of ['outside', 'inside']) {
      expect(lengths(kind)).toHaveLength(6)
      for (const length of lengths(kind)) expect(length).toBeCloseTo(40, 9)
    }
    for (const kind of ['top', 'bottom']) {
      expect(lengths(kind)).toHaveLength(6)
      for (const length of lengths(kind)) expect(length).toBeCloseTo(40 / Math.cos(Math.PI / 6), 9)
    }
  })

  test('outside seams lie 404.15 from the middle, on the corners; inside ones nearer by 2w/√3', () => {
    for (const seam of plan.seams) {
      const away = Math.hypot(seam.from[0], seam.from[1])
      if (seam.class === 'outside') expect(away).toBeCloseTo(404.1452, 3)
      if (seam.class === 'inside') expect(away).toBeCloseTo(404.1452 - 40 / Math.cos(Math.PI / 6), 3)
      if (seam.class === 'top') expect([seam.from[2], seam.to[2]]).toEqual([40, 40])
    }
  })

  test('vertical welds first, then tops, turn, bottoms; every seam once', () => {
    const kinds = plan.order.map((id) => id.split('/').pop())
    expect(kinds).toEqual([
      ...Array(6).fill('outside'),
      ...Array(6).fill('inside'),
      ...Array(6).fill('top'),
      'turn:top',
      ...Array(6).fill('bottom'),
    ])
    expect(new Set(plan.order).size).toBe(25)
  })

  test('four tacks to a joint, opposite corners first, a check after the first', () => {
    const first = plan.steps.filter((step) => step.joint === 'top/corner-1' && step.kind !== 'pass')
    expect(first.map(({ kind, seam }) => seam?.split('/').pop() ?? kind)).toEqual([
      'outside',
      'check',
      'inside',
      'top',
      'bottom',
    ])
  })

  test('piece by piece: outside tacks go round, the last joint is closed after the outline', () => {
    const steps = weldPlan(frame, { ...shop, tacking: 'piece by piece' }).steps
    const tacks = steps.filter(({ kind }) => kind === 'tack' || kind === 'check').map(({ text }) => text)
    expect(tacks.slice(0, 7)).toEqual([
      'Tack corner 1, outside',
      'Tack corner 2, outside',
      'Tack corner 3, outside',
      'Tack corner 4, outside',
      'Tack corner 5, outside',
      'Try it on the outline, close the last joint, check.',
      'Tack corner 6, outside',
    ])
  })
})

describe('half rings, joined last (common practice)', () => {
  const said = (sides: number) => {
    const { frame, shop } = framed('polygon-frame', { sides, size: 700, section: tube(40, 3) }, metric)
    const { steps } = weldPlan(frame, { ...shop, tacking: 'half rings' })
    return steps.filter(({ kind }) => kind === 'tack' || kind === 'check').map(({ text }) => text)
  }
  test('six sides: corners 2, 3 and 5, 6 first; 1 and 4 stay open until both halves lie on the outline', () =>
    expect(said(6).slice(0, 7)).toEqual([
      'Tack corner 2, outside',
      'Tack corner 3, outside',
      'Tack corner 5, outside',
      'Tack corner 6, outside',
      'Lay both halves on the outline, share what is left over between the two open joints, check.',
      'Tack corner 1, outside',
      'Tack corner 4, outside',
    ]))
  test('five sides have no halves: round, the last joint open', () =>
    expect(said(5).slice(3, 6)).toEqual([
      'Tack corner 4, outside',
      'Try it on the outline, close the last joint, check.',
      'Tack corner 5, outside',
    ]))
})

describe('sub-assemblies in their order', () => {
  const { frame, shop } = framed('pedestal', { ...onBars, top: 'top sheet' }, metric)
  const { steps } = weldPlan(frame, shop)
  const stages = [...new Set(steps.map(({ stage }) => stage))]
  test('caps on the feet, feet to arms, arms to the post, the frame, then all together; the sheet last', () =>
    expect(stages).toEqual([
      'Before the first tack',
      'Foot caps',
      'Base, arm to foot',
      'Base, arm to post',
      'Base, post to cross bar',
      'Base, post to half bar',
      'Base, half bar to cross bar',
      'Base',
      'Top frame',
      'All together, cross bar to top side',
      'All together, half bar to top side',
      'All together',
      'Top sheet',
      'When all is welded',
    ]))
  // Common practice: build the frame, try the sheet, scribe the frame as built, cut.
  test('a sheet that hangs over by 12 mm is scribed and cut before it is tacked; one cut by its numbers is tacked at once', () => {
    const over = { top: 'top sheet', topEdge: 'overhang', topEdgeBy: 12 }
    const onSheet = (more: object) => {
      const made = framed('pedestal', { ...over, ...more }, metric)
      return weldPlan(made.frame, made.shop).steps.filter(({ stage }) => stage === 'Top sheet')
    }
    expect(onSheet({}).map(({ kind }) => kind)).toEqual(['fit', 'tack', 'check'])
    expect(onSheet({})[0]!.text).toBe(
      'Lay the top sheet on the frame as built, scribe round the frame, and cut 12 mm outside the line.',
    )
    expect(onSheet({ topCut: 'by numbers' }).map(({ kind }) => kind)).toEqual(['tack', 'check'])
  })
  test('each begins with what to clamp, shim, block or weigh down', () => {
    for (const stage of stages.filter((one) => one?.includes(', '))) {
      const [first] = steps.filter((step) => step.stage === stage)
      expect(first!.kind).toBe('fit')
      expect(first!.text).toMatch(/clamp|shim|block|weigh/)
    }
  })
  test('a corner of two pieces: inside tack, check, then outside, then the sides', () => {
    const own = steps.filter(({ joint, kind }) => joint === 'base/elbow-1' && kind !== 'pass')
    expect(own.map(({ kind, seam }) => seam?.split('/').pop() ?? kind)).toEqual([
      'inside',
      'check',
      'outside',
      'top',
      'bottom',
    ])
  })
  test('turnings are counted, each with what is turned: members, and the plates that are on them by then', () => {
    const turns = steps.filter(({ kind }) => kind === 'turn')
    const members = (own: string) =>
      partsOf(frame.members, shop).reduce(
        (sum, part) => sum + part.mass * part.members.filter((id) => id.startsWith(own)).length,
        0,
      )
    // Four caps of 50 x 50 x 10 with a hole of 8.5 for M10, at 7850 kg/m3.
    const caps = (4 * (50 * 50 - (Math.PI * 8.5 ** 2) / 4) * 10 * 7850) / 1e9
    const kg = [members('base/') + caps, members('top/'), members('') + caps]
    expect(turns.map((turn) => turn.kg!)).toEqual(kg.map((one) => expect.closeTo(one, 2)))
    expect(turns.map(({ text }) => text)).toEqual([
      `Turn the base over: turn 1 of 3, about ${Math.round(kg[0]!)} kg.`,
      `Turn the top frame over: turn 2 of 3, about ${Math.round(kg[1]!)} kg.`,
      `Turn it all over: turn 3 of 3, about ${Math.round(kg[2]!)} kg.`,
    ])
  })
  test('the heaviest sub-assembly is what is lifted when all is put together; the sheet is lifted too', () => {
    const all = steps.find(({ stage, kind }) => stage?.startsWith('All together') && kind === 'fit')!
    expect(all.kg).toBeCloseTo(steps.find(({ kind }) => kind === 'turn')!.kg!, 9)
    const sheet = frame.plates.find(({ name }) => name === 'Top sheet')!
    expect(steps.find(({ id }) => id === `tack:${sheet.id}`)!.kg).toBeCloseTo(plateMass(sheet), 9)
  })
  test('on a base plate it lies top side down: bars on the table first, the plate onto the post last', () => {
    const made = framed('pedestal', { ...onBars, base: 'base plate' }, metric)
    const fits = weldPlan(made.frame, made.shop).steps.filter(
      ({ kind, assembly }) => kind === 'fit' && assembly === 'base',
    )
    expect(fits.map(({ stage }) => stage)).toEqual([
      'Base, half bar to cross bar',
      'Base, post to cross bar',
      'Base, post to half bar',
      'Base, post to base plate',
    ])
    expect(fits[0]!.under).toEqual(['The base lies top side down.'])
    expect(fits[3]!.text).toMatch(/^Set the base plate on the post/)
  })
  test('what is told to be set on what follows gravity, not who is cut to whom (common practice)', () => {
    const told = (kind: string, params = {}) => {
      const made = framed(kind, params, metric)
      return weldPlan(made.frame, made.shop).steps.flatMap((step) => (step.kind === 'fit' ? [step.text] : []))
    }
    // The base stands on its feet: the bars come down onto the post, though the post is cut to the bars.
    expect(told('pedestal', onBars)).toContainEqual(
      expect.stringMatching(/^Set the cross bar on the post between/),
    )
    expect(told('pedestal', onBars)).toContainEqual(
      expect.stringMatching(/^Set each half bar on the post between/),
    )
    // Top side down the post comes onto the bars.
    expect(told('pedestal', { ...onBars, base: 'base plate' })).toContainEqual(
      expect.stringMatching(/^Set the post on the cross bar between/),
    )
    expect(told('loose-top')).toContainEqual(expect.stringMatching(/^Lay each side tab on the side rail/))
    expect(told('trestle')).toContainEqual(
      expect.stringMatching(/^Set the lower half leg on the through leg/),
    )
  })
  test('the soot is brushed off the tacks of every part before it is welded', () => {
    for (const id of ['base', 'top', 'all']) {
      const at = steps.findIndex((step) => step.id === `check:${id}/tacked`)
      expect(steps[at]!.text).toMatch(/soot/)
      expect(steps[at + 1]!.kind).toBe('pass')
    }
  })
  test('how each lies and what goes under it, as Fit-up says: the base on its feet, arms 75 over the table', () => {
    const under = (stage: string) => steps.find((step) => step.stage === stage)!.under
    // Arm and foot are tacked flat on the table: nothing stands yet.
    expect(under('Base, arm to foot')).toBeUndefined()
    expect(under('Base, arm to post')).toEqual([
      'The base stands as it will in the end.',
      'Under Post, Arm 1, 2, 3 and 4: block 75 mm under end A.',
    ])
    expect(under('All together, cross bar to top side')).toEqual(['It lies top side down.'])
    expect(under('Foot caps')).toBeUndefined()
  })
  test('whatever has a seam is tacked before it is welded, also tabs and bars', () => {
    for (const kind of ['loose-top', 'rect-frame', 'four-leg', 'rack', 'trestle', 'pedestal']) {
      const made = framed(kind, {}, metric)
      const plan = weldPlan(made.frame, made.shop)
      const at = (joint: string, word: string) =>
        plan.steps.findIndex((step) => step.joint === joint && step.kind === word)
      for (const joint of new Set(plan.seams.map((seam) => seam.joint))) {
        expect(at(joint, 'tack'), `${kind} ${joint}`).toBeGreaterThanOrEqual(0)
        expect(at(joint, 'tack'), `${kind} ${joint}`).toBeLessThan(at(joint, 'pass'))
      }
    }
  })
})

describe('seams of a pedestal', () => {
  const { frame, shop } = framed('pedestal', { ...onBars, sides: 10, top: 'plate' }, metric)
  const plan = weldPlan(frame, shop)
  const classes = (joint: string) =>
    plan.seams
      .filter((seam) => seam.joint === joint)
      .map((seam) => seam.class)
      .sort()

  test('half bars of equal width on the through bar: two flare, two fillets', () =>
    expect(classes('base/bars-2')).toEqual(['fillet', 'fillet', 'flare', 'flare']))
  test('arms flush with the post’s foot: one square groove, three fillets', () =>
    expect(classes('base/arm-1/post')).toEqual(['fillet', 'fillet', 'fillet', 'square groove']))
  test('caps: four edges of 50', () => {
    expect(classes('base/cap-1')).toEqual(['edge', 'edge', 'edge', 'edge'])
    for (const seam of plan.seams.filter(({ joint }) => joint === 'base/cap-1'))
      expect(seam.length).toBeCloseTo(50, 9)
  })
  test('ids are unique, steps are too, and every seam is passed once', () => {
    expect(new Set(plan.seams.map(({ id }) => id)).size).toBe(plan.seams.length)
    expect(new Set(plan.steps.map(({ id }) => id)).size).toBe(plan.steps.length)
    const passed = plan.steps.filter(({ kind }) => kind === 'pass').map(({ seam }) => seam)
    expect([...passed].sort()).toEqual(plan.seams.map(({ id }) => id).sort())
  })
  test('the plate is tacked at its corners, the caps are tapped after welding', () =>
    expect(plan.steps.slice(-3).map(({ text }) => text)).toEqual([
      'Tack the plate at its corners only.',
      'Check that the plate lies flat.',
      'Drill and tap M10 in the 4 foot caps, after welding.',
    ]))
})

describe('what looks down is welded when it is turned over', () => {
  const jobs = ['rack', 'rect-frame', 'four-leg', 'pedestal', 'trestle', 'from-points', 'loose-top'] as const
  test.each(jobs)('%s: every seam looks away from its joint', (kind) => {
    const { frame, shop } = framed(kind, {}, metric)
    for (const seam of weldPlan(frame, shop).seams) expect(Math.hypot(...seam.out)).toBeCloseTo(1, 9)
  })
  test('a rail between two uprights: fillets above and below it, flare seams on both sides', () => {
    const { frame, shop } = framed('rack', {}, metric)
    const { seams } = weldPlan(frame, shop)
    const own = seams.filter(({ joint }) => joint === 'tier-2/front-1/front-1')
    const up = own.map(({ out }) => out[2]).sort((a, b) => a - b)
    expect(up).toEqual([-Math.SQRT1_2, 0, 0, Math.SQRT1_2].map((z) => expect.closeTo(z, 9)))
    // The flare seams look to the front and to the back.
    for (const { class: kind, out } of own) if (kind === 'flare') expect(Math.abs(out[1])).toBeCloseTo(1, 9)
  })
  test('a rack: end frames lie flat, the flare seams below wait for the turn; so do the fillets under the rails', () => {
    const { frame, shop } = framed('rack', {}, metric)
    const { order, seams } = weldPlan(frame, shop)
    expect(order.filter((id) => id.startsWith('turn:'))).toEqual(['turn:pair-1', 'turn:pair-2', 'turn:all'])
    const seam = new Map(seams.map((one) => [one.id, one]))
    const looks = (from: string, to: string, axis: 0 | 1 | 2) =>
      order
        .slice(order.indexOf(from) + 1, to ? order.indexOf(to) : undefined)
        .map((id) => seam.get(id)!.out[axis])
    expect(looks('turn:all', '', 2).every((z) => z < -0.5)).toBe(true)
    // Before the turn of all nothing of it looks down; an end frame's x is up or down as it lies.
    const one = new Set(looks('turn:pair-1', 'turn:pair-2', 0).slice(0, 8).map(Math.sign))
    expect(one.size).toBe(1)
  })
  test('on thin legs nothing looks down: four legs on an upside-down frame need no turn of it all', () => {
    const { frame, shop } = framed('four-leg', {}, metric)
    expect(weldPlan(frame, shop).order.filter((id) => id.startsWith('turn:'))).toEqual(['turn:top'])
  })
  test('joints of one name are told apart: 32 of a rack', () => {
    const { frame } = framed('rack', {}, metric)
    const names = [...jointNames(frame).values()]
    expect(new Set(names).size).toBe(frame.joints.length)
    expect(names).toContain('front rail to upright, tier 2, front 1')
    expect(names).toContain('cap 3')
  })
})
