import type { SectionGiven } from '../job.ts'
import { longestTyped } from '../reading/tokens.ts'
import type { Result } from '../result.ts'
import { bad, good } from '../result.ts'
import { resolveSection } from './given.ts'
import type { SectionKind } from './section.ts'

/** Words that tell the kind, the longer ones before those that they begin with. */
const words: readonly (readonly [RegExp, SectionKind | 'square' | 'round'])[] = [
  [/\bsquare\s+bar\b/, 'square-bar'],
  [/\bround\s+bar\b/, 'round-bar'],
  [/\bflat(\s+bar)?\b/, 'flat-bar'],
  [/\bangle\b/, 'angle'],
  [/\brect(angular|\.)?(\s+tub(e|ing))?(?=\W|$)/, 'rect-tube'],
  [/\b(square|sq\.?)(\s+tub(e|ing))?(?=\W|$)/, 'square'],
  [/\bround(\s+tub(e|ing))?\b/, 'round'],
]

const possible =
  'A section is written as 2 x 2 x 1/8, 60 x 40 x 3 mm, 1 x 1 x 16 ga, or with its kind: round 2 x 0.065, flat 2 x 1/4, angle 2 x 2 x 1/8, square bar 1/2.'

/** `60 × 40 × 3 mm`, `2 × 2 in × 11 ga`: the unit behind the last size that has one is that of the bare sizes. */
function withUnit(sizes: readonly string[]): readonly string[] {
  const unit = sizes.map((size) => /\d\s*(in|mm|cm|")\.?$/.exec(size)?.[1]).findLast(Boolean)
  if (!unit) return sizes
  return sizes.map((size) => (/[a-z"']/.test(size) ? size : `${size} ${unit}`))
}

/**
 * A section as it is called where it is bought, and as `sectionName` says it: sizes with × or x between, and the kind
 * where the sizes alone do not tell it. Bare sizes are in `units`. Refused in words when it is no section that can be.
 */
export function readSection(text: string, units: 'in' | 'mm'): Result<SectionGiven> {
  if (text.length > longestTyped)
    return bad('too-long', `This has ${text.length} letters; at most ${longestTyped} are read here.`)
  const sign = /[⌀ø]/g
  let rest = text.toLowerCase().replaceAll(sign, ' ')
  let said: SectionKind | 'square' | 'round' | undefined
  for (const [pattern, kind] of words) {
    if (said || !pattern.test(rest)) continue
    said = kind
    rest = rest.replace(pattern, ' ')
  }
  if (!said && text.toLowerCase().search(sign) >= 0) said = 'round'
  rest = rest.replace(/\b(tube|tubing|hss)\b/, ' ')
  const sizes = withUnit(rest.split(/[x×*]/).map((size) => size.trim()))
  const given = sizes.some((size) => size === '') ? undefined : sectionOf(said, sizes)
  if (!given) return bad('no-section', `“${text.trim()}” is not understood as a section. ${possible}`)
  const sound = resolveSection(given, units)
  return sound.ok ? good(given) : sound
}

function sectionOf(
  said: SectionKind | 'square' | 'round' | undefined,
  sizes: readonly string[],
): SectionGiven | undefined {
  const [width, second, third] = sizes
  if (width === undefined || sizes.length > 3) return undefined
  switch (said) {
    case undefined:
    case 'rect-tube':
    case 'angle':
      // Equal sides make a square tube of it where it is resolved.
      return second !== undefined && third !== undefined
        ? {
            kind: said ?? (width === second ? 'square-tube' : 'rect-tube'),
            width,
            height: second,
            wall: third,
          }
        : undefined
    case 'square':
      if (third !== undefined) return { kind: 'square-tube', width, height: second!, wall: third }
      return second === undefined
        ? { kind: 'square-bar', width }
        : { kind: 'square-tube', width, wall: second }
    case 'round':
      if (third !== undefined) return undefined
      return second === undefined ? { kind: 'round-bar', width } : { kind: 'round-tube', width, wall: second }
    case 'flat-bar':
      return second !== undefined && third === undefined ? { kind: said, width, height: second } : undefined
    default:
      // `1/2 × 1/2 in square bar` says its side twice.
      return third === undefined
        ? { kind: said, width, ...(second === undefined ? {} : { height: second }) }
        : undefined
  }
}
