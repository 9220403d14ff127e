import { describe, expect, test } from 'vitest'
import { edgeXs, lyingAtCuts } from '../../../src/ui/drawing/lying.ts'
import { layOut, viseAt } from '../../../src/ui/saw/picture-layout.ts'
import { run, stick } from './bench-run.ts'

const at = lyingAtCuts(run, [stick]).get('A1.m')!

describe.each(['left', 'right'] as const)('the vise, stop at the %s', (side) => {
  // 404 mm in 40 tube: with a break on all of these, since 64 px of depth would need 646 px of length.
  test.each([340, 493, 600])(
    '%d px wide: on the piece where it is held, behind the blade where the stick is',
    (width) => {
      const sheet = layOut(at, side, width)
      expect(sheet.broken).toBe(true)
      const blade = edgeXs(at.keep.trail, at.keep.depth).map(sheet.px)
      const stop = sheet.px(at.stop)
      const between = (x: number) =>
        (x - stop) * (x - (side === 'left' ? Math.min(...blade) : Math.max(...blade))) < 0
      expect(between(viseAt(sheet, 'stop', at))).toBe(true)
      const behind = viseAt(sheet, 'stick', at)
      expect(between(behind)).toBe(false)
      // All of it, 34 px to each side, is clear of the blade where it crosses the fence, and inside the picture.
      expect(Math.abs(behind - sheet.px(0))).toBeGreaterThan(34)
      expect(Math.min(behind, width - behind)).toBeGreaterThanOrEqual(0)
    },
  )
})
