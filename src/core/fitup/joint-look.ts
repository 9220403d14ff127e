import { type Deg, type Mm, toDeg } from '../units.ts'

/** Where a joint stands open when its two pieces are held where they belong. */
export type OpenAt = 'outside' | 'inside' | 'top' | 'bottom'

export interface JointLook {
  /** What is wrong. */
  readonly cause: string
  /** What to set, and by how much. */
  readonly set: string
  /** Error of each end, degrees. */
  readonly each: Deg
}

/**
 * What an open joint says. A gap at the outside or inside is the miter: both ends share it. A gap at top or bottom is
 * a blade that does not stand plumb or a tube that is not square: pieces that were turned over between their two cuts
 * would have canceled a leaning blade, pieces cut by swinging the head the other way show twice its lean.
 * `across`: from the gap to where the faces touch, mm.
 */
export function readJoint(at: OpenAt, gap: Mm, across: Mm, turnedOver: boolean): JointLook {
  const both = toDeg(Math.atan2(gap, across))
  const each = both / 2
  if (at === 'outside')
    return {
      cause: 'The miters are too small: the ends are cut too near square.',
      set: 'Set the head further from square',
      each,
    }
  if (at === 'inside')
    return {
      cause: 'The miters are too great: the ends are cut too far from square.',
      set: 'Set the head nearer to square',
      each,
    }
  if (turnedOver)
    return {
      cause:
        'These pieces were turned over between their two cuts, and that cancels a leaning blade. The tube is out of square, or did not lie flat on the table.',
      set: 'Check a tube with a square, and what lies under it. The two ends together are out by twice',
      each,
    }
  return {
    cause:
      'The blade does not stand plumb: swinging the head the other way for the second cut doubles its lean at the joint. Or the tube is out of square.',
    set: 'Check the blade with a square on the table and stand it up',
    each,
  }
}
