import type { Result } from '../result.ts'
import { bad, good } from '../result.ts'

export type LengthUnit = 'in' | 'ft' | 'mm' | 'cm' | 'm'

interface Place {
  /** Column of the first letter, counted from 0. */
  readonly at: number
  /** Column after the last letter. */
  readonly end: number
  /** As it was typed. */
  readonly text: string
}

export type Token = Place &
  (
    | { readonly kind: 'number'; readonly value: number; readonly whole: boolean }
    | { readonly kind: 'fraction'; readonly value: number }
    | { readonly kind: 'unit'; readonly unit: LengthUnit | 'deg' }
    | { readonly kind: 'sign'; readonly sign: '+' | '-' | '*' }
  )

/** How a comma inside a number is read: a decimal comma, or not at all. */
export type Comma = 'decimal' | 'refuse'

const fractions: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
  '⅙': 1 / 6,
  '⅚': 5 / 6,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
}

const units: Readonly<Record<string, LengthUnit | 'deg'>> = {
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  '“': 'in',
  "''": 'in',
  '′′': 'in',
  '’’': 'in',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
  '′': 'ft',
  '’': 'ft',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  '°': 'deg',
  deg: 'deg',
  degree: 'deg',
  degrees: 'deg',
}

const signs: Readonly<Record<string, '+' | '-' | '*'>> = {
  '+': '+',
  '-': '-',
  '−': '-',
  '–': '-',
  '*': '*',
  '×': '*',
  '·': '*',
  x: '*',
}

const patterns = {
  fraction: /^(\d+)\s*[/⁄∕]\s*(\d+)(?![\d.,]*[/⁄∕.,])/,
  number: /^(?:\d+(?:[.,]\d*)?|[.,]\d+)/,
  word: /^(?:[a-z]+\.?|''|′′|’’|.)/iu,
} as const

/** Names what was not understood and its column, counted from 1. */
export const misread = (piece: { readonly at: number; readonly text: string }, why: string): Result<never> =>
  bad('misread', `“${piece.text}” at column ${piece.at + 1}: ${why}`)

/** A decimal number; 1,200 might be either of two lengths, and a wrong guess is steel. */
function readNumber(text: string, at: number, comma: Comma): Result<Token> {
  const piece = { at, end: at + text.length, text }
  const point = text.replace(',', '.')
  if (text.includes(',') && comma === 'refuse')
    return misread(piece, `write ${point} with a point, or ${text.replace(',', '')} without the comma.`)
  if (/^[1-9]\d{0,2},\d{3}$/.test(text))
    return misread(piece, `this could be ${point} or ${text.replace(',', '')}: write it without the comma.`)
  const value = Number(point)
  if (!Number.isFinite(value)) return misread(piece, 'this number is too long.')
  return good({ ...piece, kind: 'number', value, whole: /^\d+$/.test(text) })
}

function readToken(text: string, at: number, comma: Comma): Result<Token> {
  const rest = text.slice(at)
  const fraction = patterns.fraction.exec(rest)
  if (fraction) {
    const piece = { at, end: at + fraction[0].length, text: fraction[0] }
    const below = Number(fraction[2])
    if (below === 0) return misread(piece, 'a fraction cannot have 0 below.')
    const value = Number(fraction[1]) / below
    return Number.isFinite(value)
      ? good({ ...piece, kind: 'fraction', value })
      : misread(piece, 'this number is too long.')
  }
  const number = patterns.number.exec(rest)
  if (number) return readNumber(number[0], at, comma)
  const word = patterns.word.exec(rest)?.[0] ?? rest
  const piece = { at, end: at + word.length, text: word }
  const value = fractions[word]
  if (value !== undefined) return good({ ...piece, kind: 'fraction', value })
  const plain = word.toLowerCase().replace(/\.$/, '')
  const unit = units[plain]
  if (unit) return good({ ...piece, kind: 'unit', unit })
  const sign = signs[plain]
  if (sign) return good({ ...piece, kind: 'sign', sign })
  if (/^[/⁄∕]$/.test(word)) return misread(piece, 'a fraction is one whole number over another, as in 5/8.')
  if (/^[()]$/.test(word)) return misread(piece, 'sums are read without brackets.')
  return misread(piece, 'not understood here.')
}

/** Letters that anything typed may have: more is no length, no angle and no count. */
export const longestTyped = 1000

/** The text cut short enough to stand in a sentence. */
export const inShort = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text)

/** The text in pieces, blanks left out. Fails on the first piece that no length and no angle has. */
export function tokens(text: string, comma: Comma): Result<readonly Token[]> {
  if (text.length > longestTyped)
    return bad('too-long', `This has ${text.length} letters; at most ${longestTyped} are read here.`)
  const found: Token[] = []
  for (let at = 0; at < text.length; ) {
    if (/\s/u.test(text.charAt(at))) {
      at += 1
      continue
    }
    const token = readToken(text, at, comma)
    if (!token.ok) return token
    found.push(token.value)
    at = token.value.end
  }
  return good(found)
}
