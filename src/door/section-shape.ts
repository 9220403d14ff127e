import * as v from 'valibot'
import type { SectionGiven } from '../core/job.ts'
import type { Section, SectionKind } from '../core/section/section.ts'
import { agrees, distance, fields, oneOf, type Shape, shapeOf, size, text } from './shape.ts'

const kinds = [
  'square-tube',
  'rect-tube',
  'round-tube',
  'flat-bar',
  'angle',
  'round-bar',
  'square-bar',
] as const satisfies readonly SectionKind[]

export const sectionKind = oneOf(...kinds)

/** Text as typed; what it means is for core/reading to say, so the door lets any through. */
export const typed = text(100, 0)

const typedOr = (number: typeof size) =>
  v.lazy((given): Shape<number | string> => (typeof given === 'string' ? typed : number))

/** A section as chosen in a job: kept as typed. */
export const sectionGiven = shapeOf<SectionGiven>()(
  fields('a section', {
    kind: sectionKind,
    width: typedOr(size),
    height: v.optional(typedOr(size)),
    // 0 is how some say that a bar is solid.
    wall: v.optional(typedOr(distance)),
    cornerRadius: v.optional(typedOr(distance)),
    grade: v.optional(text(60)),
  }),
)

const isTube = (kind: SectionKind) => kind.endsWith('-tube')
const isRound = (kind: SectionKind) => kind.startsWith('round-')
const isSolid = (kind: SectionKind) => !isTube(kind) && kind !== 'angle'
const smaller = (section: Section) => Math.min(section.width, section.height)

/** A section resolved to mm, sound in itself. */
export const section = shapeOf<Section>()(
  v.pipe(
    fields('a section', {
      kind: sectionKind,
      width: size,
      height: size,
      wall: distance,
      cornerRadius: distance,
      grade: v.optional(text(60)),
    }),
    agrees(
      'height',
      (s) => !(isRound(s.kind) || s.kind.startsWith('square-')) || s.height === s.width,
      (s) => `${s.width}, as its width, since the section is a ${s.kind}`,
    ),
    agrees(
      'wall',
      (s) => !isTube(s.kind) || (s.wall > 0 && s.wall < smaller(s) / 2),
      (s) => `over 0 and less than ${smaller(s) / 2} mm, half of the lesser side, or no hollow is left`,
    ),
    agrees(
      'wall',
      (s) => s.kind !== 'angle' || (s.wall > 0 && s.wall < smaller(s)),
      (s) => `over 0 and less than ${smaller(s)} mm, the lesser leg`,
    ),
    agrees('wall', (s) => !isSolid(s.kind) || s.wall === 0, '0, since a bar is solid'),
    agrees(
      'cornerRadius',
      (s) => s.cornerRadius <= smaller(s) / 2,
      (s) => `at most ${smaller(s) / 2} mm, half of the lesser side`,
    ),
  ),
)
