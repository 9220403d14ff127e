import type { SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'

/** Square and rectangular tube, metric and inch, with gauge walls among them. */
export const anyTube = (roll: Dice, widest = 60): SectionGiven => {
  const wall = roll.pick([2, 3, '16 ga', '1/8'])
  const widths = [25, 25.4, 30, 40, 50, 50.8, 60, 80].filter((width) => width <= widest)
  const width = roll.pick(widths)
  const less = widths.filter((height) => height < width)
  return roll() < 0.6 || less.length === 0
    ? { kind: 'square-tube', width, wall }
    : { kind: 'rect-tube', width, height: roll.pick(less), wall }
}
