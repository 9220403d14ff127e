import type { Given, SectionGiven } from '../job.ts'
import { parseLength, resolveLength } from '../reading/parse.ts'
import { echo } from '../reading/show.ts'
import type { Problem, Result } from '../result.ts'
import { bad, badAll, good } from '../result.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { mechanicalCorner, metricCorner, structuralCorner } from './corner.ts'
import type { GaugeProduct } from './gauge.ts'
import { gaugeOfWall, gaugesOf, sheetGauge, tubeGauge } from './gauge.ts'
import { kindWord } from './name.ts'
import type { Section, SectionKind } from './section.ts'

type Units = 'in' | 'mm'

const sayIn = (mm: Mm, units: Units): string => echo(mm, units, { in: 4, mm: 2 })

/** `16 ga`, `16 gauge`: its number. */
const gaugeNumber = (given: Given): number | undefined => {
  const found = typeof given === 'string' ? /^\s*(\d+)\s*(?:ga\.?|gauge)\s*$/i.exec(given) : null
  return found ? Number(found[1]) : undefined
}

/** A thickness: a length, or a gauge of this product. Must be more than 0. */
function resolveThickness(given: Given, units: Units, product: GaugeProduct, field: string): Result<Mm> {
  const number = gaugeNumber(given)
  if (number === undefined) return positive(given, units, field)
  const thick = product === 'tube' ? tubeGauge(number) : sheetGauge(number)
  if (thick !== undefined) return good(thick)
  const known = gaugesOf(product).join(', ')
  return bad(
    'unknown-gauge',
    `${number} ga is in no table of ${product} gauges here; known are ${known}.`,
    field,
  )
}

function positive(given: Given, units: Units, field: string): Result<Mm> {
  const length = resolveLength(given, units, field)
  if (!length.ok || length.value > 0) return length
  return bad('not-positive', `${sayIn(length.value, units)} is given: it must be more than 0.`, field)
}

/** Thickness of plate or sheet, mm: a length, or a sheet gauge (MSG) such as `16 ga`. */
export const resolveSheet = (given: Given, units: Units, field = 'thickness'): Result<Mm> =>
  resolveThickness(given, units, 'sheet', field)

/** Whether a length was meant in inches: by the unit typed with it, else as the job reads. */
function meantInInches(given: Given, units: Units): boolean {
  const read = typeof given === 'string' ? parseLength(given, units) : undefined
  return (read?.ok ? read.value.unit : units) === 'in'
}

/** By the rule of the product: gauge-walled, inch structural or metric cold-formed tube. */
function defaultCorner(kind: SectionKind, wall: Mm, given: Given, units: Units): Mm {
  if (kind !== 'square-tube' && kind !== 'rect-tube') return 0
  if (gaugeOfWall(wall) !== undefined) return mechanicalCorner(wall)
  return meantInInches(given, units) ? structuralCorner(wall) : metricCorner(wall)
}

const needsHeight: Partial<Record<SectionKind, string>> = {
  'rect-tube': 'the second side of a rectangular tube is missing.',
  'flat-bar': 'the thickness of the flat bar is missing.',
}
const equalSides: Partial<Record<SectionKind, string>> = {
  'square-tube': 'a square tube has equal sides; with two sides it is a rectangular tube',
  'square-bar': 'a square bar has equal sides; with two sides it is a flat bar',
  'round-tube': 'a round tube has one diameter',
  'round-bar': 'a round bar has one diameter',
}
const walled: readonly SectionKind[] = ['square-tube', 'rect-tube', 'round-tube', 'angle']

interface Sizes {
  readonly width: Mm
  readonly height: Mm
  readonly wall: Mm
  readonly cornerRadius: Mm
}

type Say = (mm: Mm) => string

function sizeProblems(kind: SectionKind, sizes: Sizes, say: Say, at: (name: string) => string): Problem[] {
  const { width, height, wall, cornerRadius } = sizes
  const least = Math.min(width, height)
  const problems: Problem[] = []
  const rule = equalSides[kind]
  if (rule && Math.abs(width - height) > sameLength)
    problems.push({
      code: 'unequal-sides',
      text: `${say(width)} by ${say(height)} is given: ${rule}.`,
      field: at('height'),
    })
  // Both walls of a tube must leave a hole; an angle only has one leg to stay inside of.
  const room = kind === 'angle' ? least : least / 2
  if (wall > 0 && wall >= room - sameLength) {
    const of = kind === 'angle' ? 'the shorter leg' : 'half of the smaller side'
    const text = `A wall of ${say(wall)} is given: it must be less than ${of}, ${say(room)}.`
    problems.push({ code: 'wall-too-thick', text, field: at('wall') })
  } else if (cornerRadius < 0 || cornerRadius > least / 2 + sameLength) {
    const text = `A corner radius of ${say(cornerRadius)} is given: possible is 0 to ${say(least / 2)}, half of the smaller side.`
    problems.push({ code: 'corner-too-large', text, field: at('cornerRadius') })
  }
  return problems
}

/**
 * A section as chosen, in mm. A wall of a tube may be a BWG gauge, the thickness (`height`) of a flat bar an MSG one.
 * The corner, where none is given, follows the product: 1.3t with a gauge wall, 2t for other inch tube, EN 10219-2
 * for metric tube. All problems are told at once, each with its field under `field`.
 */
export function resolveSection(given: SectionGiven, units: Units, field?: string): Result<Section> {
  const at = (name: string) => (field === undefined ? name : `${field}.${name}`)
  const { kind, grade } = given
  const problems: Problem[] = []
  const take = (result: Result<Mm>): Mm => {
    if (result.ok) return result.value
    problems.push(...result.problems)
    return Number.NaN
  }
  const width = take(positive(given.width, units, at('width')))
  const missing = given.height === undefined ? needsHeight[kind] : undefined
  if (missing) problems.push({ code: 'missing', text: `Give the height: ${missing}`, field: at('height') })
  const height =
    given.height === undefined
      ? width
      : take(
          kind === 'flat-bar'
            ? resolveThickness(given.height, units, 'sheet', at('height'))
            : positive(given.height, units, at('height')),
        )
  const wall = take(resolveWall(given, units, at('wall')))
  if (problems.length > 0) return badAll(problems)
  const cornerRadius =
    given.cornerRadius === undefined
      ? defaultCorner(kind, wall, given.wall ?? wall, units)
      : take(resolveLength(given.cornerRadius, units, at('cornerRadius')))
  if (problems.length > 0) return badAll(problems)
  const sizes = { width, height, wall, cornerRadius }
  const found = sizeProblems(kind, sizes, (mm) => sayIn(mm, units), at)
  if (found.length > 0) return badAll(found)
  // The same steel has one name, however it was asked for: equal sides make a rectangular tube a square one.
  const square = kind === 'rect-tube' && Math.abs(width - height) <= sameLength
  return good({ kind: square ? 'square-tube' : kind, ...sizes, ...(grade ? { grade } : {}) })
}

function resolveWall({ kind, wall }: SectionGiven, units: Units, field: string): Result<Mm> {
  if (walled.includes(kind)) {
    if (wall !== undefined) return resolveThickness(wall, units, 'tube', field)
    return bad(
      'missing',
      `Give the wall: ${kind === 'angle' ? 'an' : 'a'} ${kindWord[kind]} needs one, as a length or as a gauge such as 16 ga.`,
      field,
    )
  }
  if (wall === undefined || wall === 0) return good(0)
  return bad(
    'solid',
    `A ${kindWord[kind]} is solid: leave the wall out${kind === 'flat-bar' ? '; its thickness is the height' : ''}.`,
    field,
  )
}
