import type { Plate, Warning } from '../frame/frame.ts'
import { regular } from '../geometry/polygon.ts'
import type { ParamGiven } from '../job.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { cosDeg, type Mm, sinDeg } from '../units.ts'
import type { MeasureDraft } from './assembly.ts'
import type { BuildContext, ParamSpec, Values } from './build.ts'
import { plateOn, type Rim } from './rim.ts'
import { factorOf, inradiusOf, type Ring, ringOf, type SizeKind, sayKind, sizeOf } from './ring.ts'

// What a polygon frame and a pedestal table ask of their top, and the top that follows.

const alike = ['square-tube', 'square-bar', 'round-tube', 'round-bar']

/** How a tube lies makes a difference, and is asked, where its sides are not alike. */
export const hasTwoSides = (given: ParamGiven | undefined): boolean =>
  typeof given !== 'object' || !('kind' in given) || !alike.includes(given.kind)

/** The tube of a mitered frame, and how a rectangular one lies in it. */
export const tubeParams = (label: string, group: string): readonly ParamSpec[] => [
  {
    name: 'section',
    label,
    type: 'section',
    start: {
      in: { kind: 'square-tube', width: '2', wall: '1/8' },
      mm: { kind: 'square-tube', width: 40, wall: 3 },
    },
    group,
  },
  {
    name: 'stands',
    label: 'The tube lies',
    type: 'choice',
    start: 'flat',
    choices: [
      { value: 'flat', label: 'flat' },
      { value: 'on edge', label: 'on edge' },
    ],
    hint: 'The greater side flat, or upright.',
    when: ({ section }) => hasTwoSides(section),
    group,
  },
]

export const ringParams: readonly ParamSpec[] = [
  {
    name: 'sides',
    label: 'Sides',
    type: 'count',
    start: 6,
    least: 3,
    most: 16,
    why: 'a polygon frame has 3 to 16 sides',
    group: 'Top frame',
  },
  {
    name: 'sizeKind',
    label: 'The size is',
    type: 'choice',
    start: 'across flats',
    choices: [
      { value: 'across flats', label: 'across flats' },
      { value: 'across corners', label: 'across corners' },
      { value: 'side', label: 'one side, outside' },
      { value: 'clear inside', label: 'clear inside' },
    ],
    hint: 'With an odd number of sides: the circle touching the sides, through the corners, or clear inside.',
    group: 'Top frame',
  },
  { name: 'size', label: 'Size', type: 'length', start: { in: '24', mm: 600 }, group: 'Top frame' },
  ...tubeParams('Tube of the top frame', 'Top frame'),
]

const hasTop = (given: Readonly<Record<string, unknown>>) => given.top !== undefined && given.top !== 'none'

export const topParams: readonly ParamSpec[] = [
  {
    name: 'top',
    label: 'On top',
    type: 'choice',
    start: 'none',
    choices: [
      { value: 'none', label: 'nothing' },
      { value: 'top sheet', label: 'top sheet (thin)' },
      { value: 'plate', label: 'plate (from 3/16 in, 5 mm)' },
    ],
    group: 'On top',
  },
  {
    name: 'topThickness',
    label: 'Thickness',
    type: 'length',
    start: { in: '1/4', mm: 5 },
    when: hasTop,
    group: 'On top',
  },
  {
    name: 'topEdge',
    label: 'Its edge',
    type: 'choice',
    start: 'flush',
    choices: [
      { value: 'flush', label: 'flush with the frame' },
      { value: 'overhang', label: 'hangs over' },
      { value: 'inset', label: 'is set in' },
    ],
    when: hasTop,
    group: 'On top',
  },
  {
    name: 'topEdgeBy',
    label: 'By',
    type: 'length',
    start: { in: '1/2', mm: 10 },
    when: (given) => hasTop(given) && given.topEdge !== undefined && given.topEdge !== 'flush',
    group: 'On top',
  },
  {
    name: 'topCut',
    label: 'It is cut',
    type: 'choice',
    start: 'last',
    choices: [
      { value: 'last', label: 'last, scribed' },
      { value: 'by numbers', label: 'by its numbers' },
    ],
    hint: 'Last is the habit: build the frame, try the sheet on it, scribe the frame as built, then cut.',
    late: true,
    when: hasTop,
    group: 'On top',
  },
]

/** The section as it lies in the ring: width in the plane, height upright. */
export function laid(section: Section, stands: 'flat' | 'on edge'): Section {
  const big = Math.max(section.width, section.height)
  const small = Math.min(section.width, section.height)
  return stands === 'flat'
    ? { ...section, width: big, height: small }
    : { ...section, width: small, height: big }
}

export interface Top {
  readonly ring: Ring
  readonly inradius: Mm
  readonly section: Section
  readonly plates: readonly Plate[]
  /** Thickness of what lies on top, 0 for nothing. */
  readonly thickness: Mm
  readonly measures: readonly MeasureDraft[]
  readonly warnings: readonly Warning[]
  readonly tooShort: () => Problem
}

const tubes = ['square-tube', 'rect-tube']

/** Ring and plate; `under` is the height of the frame's underside. All errors name what is possible. */
export function topOf(values: Values, context: BuildContext, under: Mm): Result<Top> {
  const { say } = context
  const n = values.sides as number
  const kind = values.sizeKind as SizeKind
  const size = values.size as Mm
  const given = values.section as Section
  if (!tubes.includes(given.kind))
    return bad(
      'section-kind',
      `The top frame was given ${given.kind.replace('-', ' ')}; mitered corners here take square or rectangular tube.`,
      'build.params.section',
    )
  const section = laid(given, values.stands as 'flat' | 'on edge')
  const least = sizeOf(n, kind, section.width, section.width)
  const inradius = inradiusOf(n, kind, size, section.width)
  const tooSmall = (): Problem => ({
    code: 'size-too-small',
    text:
      `${say(size)} ${sayKind(n, kind)} leaves no steel on the inside of tube that is ${say(section.width)} ` +
      `wide with ${n} sides; it must be more than ${say(Math.max(least, 0))}.`,
    field: 'build.params.size',
  })
  if (!(size > 0) || inradius <= section.width) return { ok: false, problems: [tooSmall()] }
  const ring = ringOf(n, inradius, section, under + section.height / 2, context.gap)
  const first = ring.members[0]!.id
  const kinds: SizeKind[] = ['across flats', 'across corners', 'side', 'clear inside']
  const measures = kinds.map(
    (each): MeasureDraft => ({
      name: sayKind(n, each),
      mm: sizeOf(n, each, inradius, section.width),
      asked: each === kind,
      ...(each === kind ? { param: 'size' } : {}),
      terms: [{ member: first, factor: factorOf(n, each) }],
    }),
  )
  const rim = rimOfRegular(n, inradius, say)
  const on = ring.members.map(({ id }) => id)
  const plate = plateOn(values, context, under + section.height, rim, on)
  if (!plate.ok) return plate
  const plates = plate.value ? [plate.value] : []
  return good({
    ring,
    inradius,
    section,
    plates,
    thickness: plate.value?.thickness ?? 0,
    measures,
    warnings: plate.value ? throughTheFrame(values, section.width, on, say) : [],
    tooShort: tooSmall,
  })
}

/** A top that is set in by the width of the tube or more goes through the frame instead of lying on it. */
function throughTheFrame(
  values: Values,
  width: Mm,
  members: readonly string[],
  say: (mm: Mm) => string,
): readonly Warning[] {
  const inset = values.topEdge === 'inset' ? (values.topEdgeBy as Mm) : 0
  if (inset < width - sameLength) return []
  const text = `The top is set in by ${say(inset)} and the frame is ${say(width)} wide: it lies on nothing. Set it in by less than ${say(width)}.`
  return [{ code: 'top-through-the-frame', text, members }]
}

/** The rim of a regular polygon. */
const rimOfRegular = (n: number, inradius: Mm, say: (mm: Mm) => string): Rim => ({
  moved: (out) => regular(n, inradius + out),
  fault: (out) =>
    inradius + out > 0
      ? undefined
      : `An inset of ${say(-out)} leaves nothing of the top; it must be less than ${say(inradius)}, the distance from the middle to a side.`,
})

/** Distance from the middle at which a square-ended bar of this width, laid toward `angle`, stays inside the ring. */
export function reachInside(n: number, inradius: Mm, width: Mm, angle: number): Mm {
  let reach = Number.POSITIVE_INFINITY
  for (let k = 0; k < n; k++) {
    const away = -90 + (360 * k) / n - angle
    const toward = cosDeg(away)
    if (toward > sameSlope)
      reach = Math.min(reach, (inradius - (width / 2) * Math.abs(sinDeg(away))) / toward)
  }
  return reach
}
