import { describe, expect, test } from 'vitest'
import { type Block, flow } from '../../src/paper/flow.ts'
import { bodyHigh, bodyWide, linesOf, markFont, pageSizes, stopFont, textFont } from '../../src/paper/size.ts'

const block = (name: string, head: number, strips: readonly number[]): Block<string, string> => ({
  head: { high: head, what: name },
  strips: strips.map((high, at) => ({ high, what: `${name}${at + 1}` })),
})

const shown = (pages: ReturnType<typeof flow<string, string>>) =>
  pages.map((page) => page.map(({ head, again, strips }) => `${head}${again ? '+' : ''}:${strips.join(',')}`))

describe('blocks on pages', () => {
  test('three strips of 30 under a head of 10 fill 100 to the millimeter; a fourth goes over, the head said again', () => {
    expect(shown(flow([block('a', 10, [30, 30, 30])], 100))).toEqual([['a:a1,a2,a3']])
    expect(shown(flow([block('a', 10, [30, 30, 30, 30])], 100))).toEqual([['a:a1,a2,a3'], ['a+:a4']])
    expect(shown(flow([block('a', 10, [30, 30, 30.1])], 100))).toEqual([['a:a1,a2'], ['a+:a3']])
  })

  test('a heading does not stand alone at the foot of a page', () =>
    expect(shown(flow([block('a', 10, [70]), block('b', 10, [20])], 100))).toEqual([['a:a1'], ['b:b1']]))

  test('a block kept whole goes over the page as one, not in two; one higher than a page is parted all the same', () => {
    const whole = (name: string, strips: readonly number[]) => ({
      ...block(name, 10, strips),
      whole: true as const,
    })
    expect(shown(flow([block('a', 10, [40]), whole('b', [20, 20])], 100))).toEqual([['a:a1', 'b:b1,b2']])
    expect(shown(flow([block('a', 10, [40]), whole('b', [20, 20.1])], 100))).toEqual([['a:a1'], ['b:b1,b2']])
    expect(shown(flow([whole('c', [50, 50])], 100))).toEqual([['c:c1'], ['c+:c2']])
  })

  test('nothing to lay is one empty page', () => expect(flow([], 100)).toEqual([[]]))
})

describe('sizes on paper', () => {
  test('A4 leaves 190 × 253 mm between header and footer, Letter 195.9 × 235.4', () => {
    expect([bodyWide(pageSizes.A4), bodyHigh(pageSizes.A4)]).toEqual([190, 253])
    expect(bodyWide(pageSizes.Letter)).toBeCloseTo(195.9, 9)
    expect(bodyHigh(pageSizes.Letter)).toBeCloseTo(235.4, 9)
  })

  test('a digit 0.7 of the font high is 12 mm for stops, 8 for marks, 5 for text', () => {
    expect(stopFont * 0.7).toBeGreaterThanOrEqual(12)
    expect(markFont * 0.7).toBeGreaterThanOrEqual(8)
    expect(textFont * 0.7).toBeGreaterThanOrEqual(5)
  })

  test('190 mm hold 43 letters: a sentence of 43 takes one line, of 44 two; of bold ones 38', () => {
    const words = (letters: number) =>
      `${'a '.repeat(Math.floor((letters - 1) / 2))}${letters % 2 ? 'a' : 'aa'}`
    expect(words(43)).toHaveLength(43)
    expect(linesOf(words(43), 190)).toBe(1)
    expect(linesOf(words(44), 190)).toBe(2)
    expect([linesOf(words(38), 190, 'bold'), linesOf(words(39), 190, 'bold')]).toEqual([1, 2])
  })
})
