// Cross-sections as contours in (y, z): width along y, height along z, centered. Drawn anew from the shape of the
// steel, not from the formulas of core.
import type { Section } from '../../src/core/section/section.ts'
import { type Contour, circle } from './kernel.ts'

const isRound = ({ kind }: Section) => kind === 'round-tube' || kind === 'round-bar'

/** Flats to a quarter circle: arcs are drawn by as many chords, corners on the arc. */
export type Chords = number

/** A rectangle with its corners rounded; counterclockwise. */
function rounded(width: number, height: number, radius: number, chords: Chords): Contour {
  const [y, z] = [width / 2, height / 2]
  if (radius <= 0)
    return [
      [y, z],
      [-y, z],
      [-y, -z],
      [y, -z],
    ]
  const corners = [
    [y - radius, z - radius],
    [radius - y, z - radius],
    [radius - y, radius - z],
    [y - radius, radius - z],
  ] as const
  const points = corners.flatMap(([cy, cz], corner) =>
    Array.from({ length: chords + 1 }, (_, k) => {
      const angle = ((corner + k / chords) * Math.PI) / 2
      return [cy + radius * Math.cos(angle), cz + radius * Math.sin(angle)] as const
    }),
  )
  // A tube that is all corner has no flats between them.
  return points.filter((point, at) => {
    const before = points.at(at - 1)!
    return Math.hypot(point[0] - before[0], point[1] - before[1]) > 1e-9
  })
}

const backward = (contour: Contour): Contour => [...contour].reverse()

/** The steel itself, its inside left out. Bars and angles have none; an angle's corner lies at −y, −z. */
export function steel(section: Section, chords: Chords): readonly Contour[] {
  const { kind, width, height, wall, cornerRadius } = section
  if (kind === 'angle') {
    const [y, z] = [width / 2, height / 2]
    return [
      [
        [-y, -z],
        [y, -z],
        [y, wall - z],
        [wall - y, wall - z],
        [wall - y, z],
        [-y, z],
      ],
    ]
  }
  const outside = skin(section, chords)
  if (kind === 'round-tube') return [...outside, backward(circle(width / 2 - wall, 4 * chords))]
  if (kind === 'square-tube' || kind === 'rect-tube')
    return [
      ...outside,
      backward(rounded(width - 2 * wall, height - 2 * wall, Math.max(0, cornerRadius - wall), chords)),
    ]
  return outside
}

/** The outside with its round corners, filled. */
export const skin = (section: Section, chords: Chords): readonly Contour[] => [
  isRound(section)
    ? circle(section.width / 2, 4 * chords)
    : rounded(section.width, section.height, section.cornerRadius, chords),
]

/** The sharp box around a section, filled; a round one stays round. */
export const box = (section: Section, chords: Chords = 32): readonly Contour[] => [
  isRound(section) ? circle(section.width / 2, 4 * chords) : rounded(section.width, section.height, 0, 1),
]

const areaOf = (contour: Contour): number =>
  contour.reduce((sum, [y, z], at) => {
    const [nextY, nextZ] = contour[(at + 1) % contour.length]!
    return sum + (y * nextZ - nextY * z) / 2
  }, 0)

/** Area within contours, mm²; holes count against it. */
export const drawnArea = (contours: readonly Contour[]): number =>
  contours.reduce((sum, contour) => sum + areaOf(contour), 0)

/**
 * How much steel the chords leave off, mm²: a quarter circle of radius r drawn by n chords is π r²/4 − n r²/2 · sin(π/2n)
 * short of itself; outside it is missing, inside it is too much.
 */
export function chordLoss({ kind, width, wall, cornerRadius }: Section, chords: Chords): number {
  const quarter = (radius: number) =>
    radius ** 2 * (Math.PI / 4 - (chords / 2) * Math.sin(Math.PI / (2 * chords)))
  if (kind === 'angle') return 0
  const outer = kind === 'round-tube' || kind === 'round-bar' ? width / 2 : cornerRadius
  const inner = kind.endsWith('tube') ? Math.max(0, outer - wall) : 0
  return 4 * (quarter(outer) - quarter(inner))
}
