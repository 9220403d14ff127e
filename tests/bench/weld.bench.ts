import { bench, describe } from 'vitest'
import { weldPlan } from '../../src/core/weld/order.ts'
import { framed, metric, tube } from '../core/builds/framed.ts'

// Aim: the order of 60 seams in 100 ms.
const { frame, shop } = framed('polygon-frame', { sides: 15, size: 900, section: tube(40, 3) }, metric)

const rack = framed('rack', {}, metric)

describe('weld order', () => {
  bench('60 seams of a ring of 15', () => {
    weldPlan(frame, shop)
  })
  bench('152 seams of a rack', () => {
    weldPlan(rack.frame, rack.shop)
  })
})
