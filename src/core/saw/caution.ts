import type { Mm } from '../units.ts'

// Cautions of the saw that the screen and the paper say in the same words.

/** A piece shorter than twice its depth is hard to hold: common practice. */
export const isShort = (length: Mm, depth: Mm): boolean => length < 2 * depth

export const shortPiece = 'Short piece: clamp it with a longer one or a block, never hold it by hand.'

/** At a miter on a saw that takes several side by side. */
export const stackedOnly =
  'Miters one at a time, or one on the other with the same side at the fence. Never side by side: that moves the long point.'
