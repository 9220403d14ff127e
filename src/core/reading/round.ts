import { tieSlack } from '../tolerance.ts'

/**
 * Nearest whole number, ties away from zero, so that +x and −x round alike. A tie spoiled by floating point
 * (9.625 in = 244.475 mm, stored as 244.47499...) is still a tie.
 */
export function nearest(value: number): number {
  const whole = Math.floor(Math.abs(value) + 0.5 + tieSlack)
  return value < 0 && whole > 0 ? -whole : whole
}

/** At most `places` decimals, no trailing zeros, a true minus sign: `244.48`, `17.5`, `−3`. */
export function decimals(value: number, places: number): string {
  return fixed(value, places)
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '')
}

/** Exactly `places` decimals, ties away from zero. */
export function fixed(value: number, places: number): string {
  const scale = 10 ** places
  const steps = nearest(value * scale)
  return (steps < 0 ? '−' : '') + (Math.abs(steps) / scale).toFixed(places)
}
