import type { Mm } from '../units.ts'

// How the judges name figures in a fault: short, and exact to a ten-thousandth.

const digits = (value: number): string => String(+value.toFixed(4))

export const mm = (length: Mm): string => `${digits(length)} mm`
export const deg = (angle: number): string => `${digits(angle)}°`
export const plain = digits

/** Whether a number may stand in a document at all: NaN would pass every "is it less" unseen. */
export const isLength = (value: number): boolean => Number.isFinite(value) && value >= 0
