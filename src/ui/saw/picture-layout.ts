import type { SetUp } from '../../core/plan-shapes.ts'
import type { Mm } from '../../core/units.ts'
import { type AtCut, edgeXs } from '../drawing/lying.ts'

/** Where things stand on the picture of one cut, in pixels. */
export interface Sheet {
  readonly width: number
  readonly height: number
  readonly stopLeft: boolean
  /** Pixels to a millimeter; the same both ways. */
  readonly scale: number
  /** The middle of the piece is left out: it is too long for the width. */
  readonly broken: boolean
  /** Pixel of a place along the fence. */
  readonly px: (x: Mm) => number
  /** Pixel row: 0 at the fence, 1 at the side of the piece away from it. */
  readonly py: (part: number) => number
  readonly fence: number
  /** Depth of the piece, pixels. */
  readonly w: number
  readonly measureY: number
  readonly nameAt: number
  readonly nameSize: number
}

/** Least and greatest depth at which a section is drawn, pixels. */
const leastDepth = 64
const mostDepth = 96

/**
 * Lays out the picture for a given width. The scale is true both ways; a piece too long for it is drawn with a
 * break in the middle, its two ends true.
 */
export function layOut(at: AtCut, stopSide: 'left' | 'right', width: number): Sheet {
  const stopLeft = stopSide === 'left'
  const depth = at.keep.depth
  const blade = edgeXs(at.keep.trail, depth)
  const lowest = Math.min(0, blade[0], blade[1])
  // Room behind the blade for the vise and the word, and at the stop for its plate.
  const margin = 44
  const behind = Math.min(170, width * 0.3)
  const room = width - margin - behind
  const span = at.stop - lowest
  const whole = Math.min(mostDepth / depth, room / span)
  const broken = whole * depth < leastDepth
  const scale = broken ? leastDepth / depth : whole
  const w = depth * scale
  // Where the piece is broken, what lies past its middle is moved in toward the blade.
  const shift = broken ? span * scale - room : 0
  const middle = at.stop / 2
  const along = (x: Mm) => (x - lowest) * scale - (x > middle ? shift : 0)
  const slack = Math.max(0, room - span * scale) / 2
  const px = (x: Mm) => {
    const fromBlade = behind + (broken ? 0 : slack) + along(x)
    return stopLeft ? width - fromBlade : fromBlade
  }
  const fence = 52
  const lead = edgeXs(at.keep.lead, depth)
  const shortest = Math.max(
    20,
    Math.abs(px(Math.min(lead[0], lead[1])) - px(Math.max(0, blade[0], blade[1]))),
  )
  const centers = (px((lead[0] + lead[1]) / 2) + px((blade[0] + blade[1]) / 2)) / 2
  const quarter = (px(0) + (px(at.stop) - px(0)) * 0.27 + centers) / 2
  const measureY = fence + w + 96
  return {
    width,
    height: measureY + 32,
    stopLeft,
    scale,
    broken,
    px,
    py: (part) => fence + w * part,
    fence,
    w,
    measureY,
    nameAt: broken ? quarter : centers,
    nameSize: Math.min(40, w * 0.56, shortest * 0.4),
  }
}

/** Half the width at which the vise is drawn, pixels. */
const viseHalf = 34

/**
 * Pixel at which the middle of the vise stands: on the piece between blade and stop, or on the stick behind the blade.
 * Reckoned between pixels, since a piece drawn with a break has no pixel for what lies in its middle.
 */
export function viseAt({ px, stopLeft }: Sheet, hold: SetUp['hold'], { keep }: AtCut): number {
  const blade = edgeXs(keep.trail, keep.depth)
  if (hold === 'stick') return px(Math.min(blade[0], blade[1])) + (stopLeft ? 1 : -1) * 2 * viseHalf
  const lead = edgeXs(keep.lead, keep.depth)
  const from = px(Math.max(blade[0], blade[1]))
  return from + (px(Math.max(lead[0], lead[1])) - from) * 0.62
}
