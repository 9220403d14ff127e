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
