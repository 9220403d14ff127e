import { stepSlack } from './tolerance.ts'

/** Millimeters. Every length inside is one. */
export type Mm = number

/** Degrees and radians are branded, since these two get mixed up. */
export type Deg = number & { readonly angle?: 'degrees' }
export type Rad = number & { readonly angle?: 'radians' }

/** 1 in = 25.4 mm exactly (International yard and pound agreement, 1959). */
export const inch: Mm = 25.4

/** No length of a document is greater: a kilometer. It keeps sums far from where doubles go coarse. */
export const mostLength: Mm = 1_000_000

/** Nesting and conservation of steel count in whole steps of 1/1600 mm: holds every 1/64 in and every 0.01 mm. */
export const stepsPerMm = 1600

/** Whole steps that a part takes: the step it lies on, else the next one up. */
export function stepsUp(length: Mm): number {
  const nearest = Math.round(length * stepsPerMm)
  return Math.abs(nearest / stepsPerMm - length) <= stepSlack ? nearest : Math.ceil(length * stepsPerMm)
}

/** Whole steps that stock offers: the step it lies on, else the next one down. */
export function stepsDown(length: Mm): number {
  const nearest = Math.round(length * stepsPerMm)
  return Math.abs(nearest / stepsPerMm - length) <= stepSlack ? nearest : Math.floor(length * stepsPerMm)
}

/** Nearest whole steps, for identity: two lengths with the same steps are one length. */
export const stepsNearest = (length: Mm): number => Math.round(length * stepsPerMm)

export const fromSteps = (steps: number): Mm => steps / stepsPerMm

export const toRad = (angle: Deg): Rad => (angle * Math.PI) / 180
export const toDeg = (angle: Rad): Deg => (angle * 180) / Math.PI

/** Tangent and cosine of an angle in degrees. */
export const tanDeg = (angle: Deg): number => Math.tan(toRad(angle))
export const sinDeg = (angle: Deg): number => Math.sin(toRad(angle))
export const cosDeg = (angle: Deg): number => Math.cos(toRad(angle))
