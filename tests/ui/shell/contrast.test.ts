// Contrast by the formula of WCAG 2.2 (relative luminance, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, test } from 'vitest'

const css = readFileSync(resolve('src/ui/theme.css'), 'utf8')

function tokens(selector: string): Record<string, string> {
  const start = css.indexOf(`${selector} {`)
  const block = css.slice(start, css.indexOf('}', start))
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((found) => [found[1]!, found[2]!]),
  )
}

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
}

function contrast(one: string, two: string): number {
  const [dark, light] = [luminance(one), luminance(two)].sort((a, b) => a - b)
  return (light! + 0.05) / (dark! + 0.05)
}

test('black on white is 21 : 1 and #777 on white 4.48 : 1, as the standard’s own examples say', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6)
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2)
})

describe.each([
  ['layout blue', ':root'],
  ['daylight', ':root[data-daylight]'],
])('in the %s theme', (_, selector) => {
  const token = { ...tokens(':root'), ...tokens(selector) }
  const of = (name: string) => {
    const value = token[name]
    if (!value) throw new Error(`no token ${name}`)
    return value
  }
  test.each([
    ['scribe', 'ground'],
    ['scribe', 'raised'],
    ['scribe', 'steel'],
    ['dim', 'ground'],
    ['dim', 'raised'],
    ['straw-text', 'ground'],
    ['straw-text', 'raised'],
    ['temper', 'ground'],
    ['temper', 'raised'],
    ['miscut', 'ground'],
    ['on-straw', 'straw'],
    ['on-temper', 'temper'],
  ])('text in %s on %s has at least 7 : 1', (text, under) =>
    expect(contrast(of(text), of(under))).toBeGreaterThanOrEqual(7),
  )
  test.each([
    ['edge', 'ground'],
    ['bare', 'ground'],
    ['bare', 'raised'],
    ['miscut', 'raised'],
  ])('marks in %s on %s have at least 3 : 1', (mark, under) =>
    expect(contrast(of(mark), of(under))).toBeGreaterThanOrEqual(3),
  )
})
