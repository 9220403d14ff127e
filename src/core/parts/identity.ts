import { edgeCorners, xAt } from '../frame/member.ts'
import type { EndPlane } from '../nest.ts'
import { type Section, sectionKey } from '../section/section.ts'
import { stepsPerMm } from '../units.ts'

/** A piece of steel by itself: a section and its two end planes, in a frame of its own. */
export interface Solid {
  readonly section: Section
  readonly a: EndPlane
  readonly b: EndPlane
}

const plane = (x: number, p: number, q: number): EndPlane => ({ x, p: p || 0, q: q || 0 })

/** Half turn about the axis. */
export const over = ({ section, a, b }: Solid): Solid => ({
  section,
  a: plane(a.x, -a.p, -a.q),
  b: plane(b.x, -b.p, -b.q),
})

/** Half turn about z: end for end, the same face up. */
export const end = ({ section, a, b }: Solid): Solid => ({
  section,
  a: plane(-b.x, b.p, -b.q),
  b: plane(-a.x, a.p, -a.q),
})

/** Half turn about y: end for end, the same side toward +y. */
export const flip = ({ section, a, b }: Solid): Solid => ({
  section,
  a: plane(-b.x, -b.p, b.q),
  b: plane(-a.x, -a.p, a.q),
})

/** Quarter turn about +x: what was +y is then +z; width and height change places. */
export const quarter = ({ section, a, b }: Solid): Solid => ({
  section: { ...section, width: section.height, height: section.width },
  a: plane(a.x, -a.q, a.p),
  b: plane(b.x, -b.q, b.p),
})

/** The piece lying with its greater dimension across. */
export const lying = (solid: Solid): Solid =>
  solid.section.height > solid.section.width ? quarter(solid) : solid

/**
 * Whole steps for identity. Half steps are moved aside by a thousandth, since 1/128 in lies on one and two
 * computations of the same length must not fall on both sides of it.
 */
const steps = (x: number): number => Math.floor(x * stepsPerMm + 0.501)

function numbers({ section, a, b }: Solid): number[] {
  const at = (end: EndPlane) => edgeCorners(section).map(([y, z]) => xAt(end, y, z))
  const xs = [...at(a), ...at(b)]
  const least = Math.min(...xs)
  return xs.map((x) => steps(x - least))
}

/** The proper turnings under which a section looks the same. Mirror images are not among them. */
export function turnings(solid: Solid): Solid[] {
  const start = lying(solid)
  const halves = [start, over(start), end(start), flip(start)]
  const even = Math.abs(start.section.width - start.section.height) * stepsPerMm < 1
  return even ? [...halves, ...halves.map(quarter)] : halves
}

/**
 * Geometry key: section, and the x of both ends on the four edges, from the least x, in whole steps, least among
 * the proper turnings. Two pieces with one key are the same part; a mirror image has another key.
 */
export function geometryKey(solid: Solid): string {
  const all = turnings(solid).map(numbers)
  const least = all.reduce((best, next) => (compare(next, best) < 0 ? next : best))
  return `${sectionKey(solid.section)} | ${least.join(' ')}`
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let at = 0; at < a.length; at++) if (a[at] !== b[at]) return a[at]! - b[at]!
  return 0
}
