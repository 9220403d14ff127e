import type { Mm } from '../units.ts'

export type SectionKind =
  | 'square-tube'
  | 'rect-tube'
  | 'round-tube'
  | 'flat-bar'
  | 'angle'
  | 'round-bar'
  | 'square-bar'

/**
 * A cross-section, resolved to millimeters. Width lies along a member's local Y, height along its local Z.
 * Solid bars have wall 0; round sections have width = height = diameter; cornerRadius is the outside one.
 */
export interface Section {
  readonly kind: SectionKind
  readonly width: Mm
  readonly height: Mm
  readonly wall: Mm
  readonly cornerRadius: Mm
  readonly grade?: string
}

/** What names a section: two members with the same key are cut from the same stick. */
export function sectionKey(section: Section): string {
  const big = Math.max(section.width, section.height)
  const small = Math.min(section.width, section.height)
  const size = [big, small, section.wall, section.cornerRadius].map((side) => String(+side.toFixed(4)))
  return [section.kind, ...size, ...(section.grade ? [section.grade] : [])].join(' ')
}

/** Tubes; an angle and the bars are not. */
export const isHollow = ({ kind }: Section): boolean =>
  kind === 'square-tube' || kind === 'rect-tube' || kind === 'round-tube'

export const isRound = ({ kind }: Section): boolean => kind === 'round-tube' || kind === 'round-bar'

/**
 * Width of the flat that the corners leave of a side, mm: 'width' for the faces whose normal is local Z, 'height' for
 * those whose normal is Y. A landing wider than this runs out over the corners. A round section has no flat.
 */
export const flatOf = (section: Section, side: 'width' | 'height'): Mm =>
  isRound(section) ? 0 : section[side] - 2 * section.cornerRadius

/** Radius with which the outside of a section turns its corners, mm: round steel is all corner, whatever is stored. */
export const turnOf = (section: Pick<Section, 'kind' | 'width' | 'cornerRadius'>): Mm =>
  section.kind === 'round-tube' || section.kind === 'round-bar' ? section.width / 2 : section.cornerRadius
