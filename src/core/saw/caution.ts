import type { Mm } from '../units.ts'

// Cautions of the saw that the screen and the paper say in the same words.

/** A piece shorter than twice its depth is hard to hold: common practice. */
export const isShort = (length: Mm, depth: Mm): boolean => length < 2 * depth

export const shortPiece = 'Short piece: clamp it with a longer one or a block, never hold it by hand.'
