import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { heatPlan } from '../../src/core/weld/heat-plan.ts'
import { weldPlan } from '../../src/core/weld/order.ts'
import { framed, metric, onBars, tube } from '../core/builds/framed.ts'

const ring = (sides: number) => ['polygon-frame', { sides, size: 700, section: tube(40, 3) }] as const

const jobs = {
  'ring of 4': ring(4),
  'ring of 6': ring(6),
  'ring of 8': ring(8),
  'ring of 12': ring(12),
  'rectangle with a cross bar': ['rect-frame', {}],
  'four legs': ['four-leg', {}],
  'pedestal, ten sides': ['pedestal', { ...onBars, sides: 10 }],
  trestle: ['trestle', {}],
  'rack, four tiers': ['rack', {}],
  'rack, seven tiers': ['rack', { tierCount: 7 }],
} as const

test('docs/weld.md says what the order of welding gains, and where it gains nothing', () => {
  const page = readFileSync(new URL('../../docs/weld.md', import.meta.url), 'utf8')
  for (const [name, [kind, params]] of Object.entries(jobs)) {
    const { frame, shop } = framed(kind, params, metric)
    const weld = weldPlan(frame, shop)
    const { round, index } = heatPlan(frame, weld)
    const turns = weld.order.length - weld.seams.length
    const cells = [name, weld.seams.length, turns, round.toFixed(2), index.toFixed(2)]
    expect(page.replaceAll(/ +/g, ' ')).toContain(`| ${cells.join(' | ')} |`)
  }
})
