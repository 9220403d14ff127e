// A weld list written by hand: a square top of four joints with two tacks and two passes each would be long; two
// joints are enough to see the order, the numbers and the ticks.
import type { Joint } from '../../../src/core/frame/frame.ts'
import type { Plan, Seam, WeldStep } from '../../../src/core/plan-shapes.ts'
import { plan as bare } from '../saw/bench-run.ts'

const joint = (n: number): Joint => ({
  id: `top/corner-${n}`,
  kind: 'miter',
  members: [],
  at: [n * 100, 0, 0],
  ends: [],
})
const seam = (n: number, kind: 'outside' | 'bottom'): Seam => ({
  id: `top/corner-${n}/${kind}`,
  joint: `top/corner-${n}`,
  class: kind,
  length: 40,
  size: 3,
  from: [n * 100, 0, 0],
  to: [n * 100, 0, 40],
  out: kind === 'bottom' ? [0, 0, -1] : [1, 0, 0],
  place: { member: '', fromA: 0 },
})
const step = (id: string, kind: WeldStep['kind'], text: string, n?: number, on?: Seam): WeldStep => ({
  id,
  kind,
  assembly: 'top',
  text,
  why: 'A line of why.',
  ...(n === undefined ? {} : { joint: `top/corner-${n}` }),
  ...(on === undefined ? {} : { seam: on.id }),
})

export const seams = [seam(1, 'outside'), seam(3, 'outside'), seam(1, 'bottom')]

export const steps: readonly WeldStep[] = [
  step('fit:top', 'fit', 'Clamp all parts of the top on the outline.'),
  step('tack:3', 'tack', 'Tack corner 3, outside', 3, seams[1]),
  step('check:3', 'check', 'Check the angle at corner 3.', 3),
  step('tack:1', 'tack', 'Tack corner 1, outside', 1, seams[0]),
  step('pass:3', 'pass', 'Weld corner 3, outside', 3, seams[1]),
  step('pass:1', 'pass', 'Weld corner 1, outside', 1, seams[0]),
  step('turn:top', 'turn', 'Turn the top over.'),
  step('pass:1b', 'pass', 'Weld corner 1, bottom', 1, seams[2]),
]

export const plan: Plan = {
  ...bare,
  quantity: 3,
  frame: {
    ...bare.frame,
    joints: [joint(1), joint(3)],
    assemblies: [{ id: 'top', name: 'Top frame', members: [], ring: ['top/corner-1', 'top/corner-3'] }],
  },
  weld: { seams, tacks: [], order: [], round: [], steps },
}
