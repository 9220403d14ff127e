import type { Saddle } from '../frame/frame.ts'
import { xAt } from '../frame/member.ts'
import { rimAt, saddleX } from '../frame/round-end.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import type { EndPlane } from '../nest.ts'
import { isRound, type Section, sectionKey } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import { type Rad, stepsPerMm } from '../units.ts'

/** A piece of steel by itself: a section and its two ends, in a frame of its own. */
export interface Solid {
  readonly section: Section
  readonly a: EndPlane
  readonly b: EndPlane
  /** What the two ends are fitted to after they are sawn, where they are. */
  readonly saddles?: readonly [Saddle | undefined, Saddle | undefined]
}

const plane = (x: number, p: number, q: number): EndPlane => ({ x, p: p || 0, q: q || 0 })

/** The saddles after a turning; `swap` where the ends change places. */
function turned({ saddles }: Solid, turn: (v: Vec3) => Vec3, swap: boolean): Pick<Solid, 'saddles'> {
  if (!saddles) return {}
  const [a, b] = saddles.map((to) => to && { ...to, point: turn(to.point), along: turn(to.along) })
  return { saddles: swap ? [b, a] : [a, b] }
}

/** Half turn about the axis. */
export const over = (of: Solid): Solid => ({
  section: of.section,
  a: plane(of.a.x, -of.a.p, -of.a.q),
  b: plane(of.b.x, -of.b.p, -of.b.q),
  ...turned(of, ([x, y, z]) => [x, -y, -z], false),
})

/** Half turn about z: end for end, the same face up. */
export const end = (of: Solid): Solid => ({
  section: of.section,
  a: plane(-of.b.x, of.b.p, -of.b.q),
  b: plane(-of.a.x, of.a.p, -of.a.q),
  ...turned(of, ([x, y, z]) => [-x, -y, z], true),
})

/** Half turn about y: end for end, the same side toward +y. */
export const flip = (of: Solid): Solid => ({
  section: of.section,
  a: plane(-of.b.x, -of.b.p, of.b.q),
  b: plane(-of.a.x, -of.a.p, of.a.q),
  ...turned(of, ([x, y, z]) => [-x, y, -z], true),
})

/** Quarter turn about +x: what was +y is then +z; width and height change places. */
export const quarter = (of: Solid): Solid => ({
  section: { ...of.section, width: of.section.height, height: of.section.width },
  a: plane(of.a.x, -of.a.q, of.a.p),
  b: plane(of.b.x, -of.b.q, of.b.p),
  ...turned(of, ([x, y, z]) => [x, -z, y], false),
})

/** Any turn about +x, right-hand: only round steel looks the same after it. */
export function rolled(of: Solid, angle: Rad): Solid {
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)]
  const turn = (y: number, z: number) => [cosine * y - sine * z, sine * y + cosine * z] as const
  const end = ({ x, p, q }: EndPlane) => plane(x, ...turn(p, q))
  return {
    section: of.section,
    a: end(of.a),
    b: end(of.b),
    ...turned(of, ([x, y, z]) => [x, ...turn(y, z)], false),
  }
}

/** Directions across round steel that its ends have: where a plane rises, where the tube runs that an end is fitted to. */
function directions({ a, b, saddles = [undefined, undefined] }: Solid): Rad[] {
  const planes = [a, b].filter(({ p, q }) => Math.hypot(p, q) > sameSlope)
  return [
    ...planes.map(({ p, q }) => Math.atan2(q, p)),
    ...saddles.flatMap((to) => (to ? [Math.atan2(to.along[2], to.along[1])] : [])),
  ]
}

/** Round steel has no face of its own: it is turned so that a direction of one of its ends lies along y. */
function aligned(solid: Solid): Solid[] {
  const all = directions(solid).map((angle) => rolled(solid, -angle))
  return all.length > 0 ? all : [solid]
}

/** The piece lying with its greater dimension across. */
export const lying = (solid: Solid): Solid =>
  solid.section.height > solid.section.width ? quarter(solid) : solid

/**
 * Whole steps for identity. Half steps are moved aside by a thousandth, since 1/128 in lies on one and two
 * computations of the same length must not fall on both sides of it.
 */
const steps = (x: number): number => Math.floor(x * stepsPerMm + 0.501)

function numbers({ section, a, b, saddles }: Solid): number[] {
  const y = section.width / 2
  const z = section.height / 2
  const xs = [
    xAt(a, y, z),
    xAt(a, -y, z),
    xAt(a, -y, -z),
    xAt(a, y, -z),
    xAt(b, y, z),
    xAt(b, -y, z),
    xAt(b, -y, -z),
    xAt(b, y, -z),
  ]
  const least = Math.min(...xs)
  const found = xs.map((x) => steps(x - least))
  saddles?.forEach((to, place) => {
    if (!to) return
    const lines = saddleAngles.map((angle) => rimAt(section.width / 2, angle))
    const end = place === 0 ? 'A' : 'B'
    found.push(place, steps(to.radius), ...lines.map(([y, z]) => steps(saddleX(to, end, y, z) - least)))
  })
  return found
}

/** Where round a tube its saddle is measured: between the quarters, where no saddle has its corner. */
const saddleAngles: readonly Rad[] = Array.from({ length: 8 }, (_, k) => ((2 * k + 1) * Math.PI) / 8)

/** The proper turnings under which a section looks the same. Mirror images are not among them. */
export function turnings(solid: Solid): Solid[] {
  const starts = isRound(solid.section) ? aligned(solid) : [lying(solid)]
  return starts.flatMap((start) => {
    const halves = [start, over(start), end(start), flip(start)]
    const even = Math.abs(start.section.width - start.section.height) * stepsPerMm < 1
    return even ? [...halves, ...halves.map(quarter)] : halves
  })
}

/**
 * Geometry key: section, and the x of both ends on the four edges, from the least x, in whole steps, least among
 * the proper turnings; a saddle adds its radius and its x round the tube. Two pieces with one key are the same part; a
 * mirror image has another key.
 */
export function geometryKey(solid: Solid): string {
  return `${sectionKey(solid.section)} | ${leastNumbers(solid).join(' ')}`
}

function leastNumbers(solid: Solid): readonly number[] {
  const { a, b, saddles } = solid
  // Square at both ends it looks alike in every turning, and most members of most frames are.
  if (!saddles && a.p === 0 && a.q === 0 && b.p === 0 && b.q === 0) {
    const long = steps(b.x - a.x)
    return [0, 0, 0, 0, long, long, long, long]
  }
  const all = turnings(solid).map(numbers)
  return all.reduce((best, next) => (compare(next, best) < 0 ? next : best))
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let at = 0; at < a.length; at++) if (a[at] !== b[at]) return a[at]! - (b[at] ?? 0)
  return 0
}
