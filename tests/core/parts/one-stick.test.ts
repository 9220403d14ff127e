import { describe, expect, test } from 'vitest'
import { checkNest } from '../../../src/core/check/check-nest.ts'
import type { Job } from '../../../src/core/job.ts'
import type { CuttingWay } from '../../../src/core/nest.ts'
import { byCopy, wantedTogether, wish } from '../../../src/core/parts/one-stick.ts'
import type { Part } from '../../../src/core/plan-shapes.ts'
import { nestByWay } from '../saw/by-way.ts'
import { part, shop } from '../saw/sample.ts'

// Lengths by hand: a stick of 2000 with a clean-up cut of 10, a kerf of 2.5 and 60 to hold has 2000 − 10 − 62.5 = 1927.5.

const of = (
  mark: string,
  length: number,
  count: number,
  members: readonly string[],
  ends = [0, 0],
): Part => ({
  ...part({ mark, length, printed: length, ends: ends as [number, number] }),
  count,
  members,
})
const long = of('A', 900, 2, ['side-1', 'side-3'])
const short = of('B', 600, 2, ['side-2', 'side-4'])
const wishes = (...oneStick: readonly (readonly string[])[]): Pick<Job, 'id' | 'oneStick'> => ({
  id: 'job',
  oneStick,
})
const together = (parts: readonly Part[], job: Pick<Job, 'id' | 'oneStick'>) =>
  wantedTogether(parts, job).map(({ oneStick }) => oneStick)

/** Marks by stick, `A A | B B`, or why there is none. */
function sticks(
  parts: readonly Part[],
  lengths: readonly number[],
  quantity = 1,
  way: CuttingWay = 'square first',
) {
  const set = shop({ usualLengths: lengths })
  const made = nestByWay(parts, set, way, quantity)
  if (typeof made === 'string') return made
  expect(checkNest(made.nest, made.demand.problems).faults).toEqual([])
  const all = made.nest.sections.flatMap((section) => section.sticks)
  return all.map(({ pieces }) => pieces.map(({ mark, copy }) => `${mark}${copy}`).join(' ')).sort()
}

describe('what a wish means', () => {
  test('a part is meant where any of its members is named; one that is gone says nothing', () => {
    expect(together([long, short], wishes(['side-3', 'shelf-1']))).toEqual(['job/A', undefined])
    expect(together([long, short], wishes(['side-1', 'side-2']))).toEqual(['job/A', 'job/A'])
    expect(together([long, short], wishes(['shelf-1', 'shelf-2']))).toEqual([undefined, undefined])
  })

  test('one piece alone has nothing to share, nor have parts of two sections', () => {
    expect(together([of('A', 900, 1, ['post']), short], wishes(['post']))).toEqual([undefined, undefined])
    const flat: Part = {
      ...of('C', 300, 1, ['bar']),
      section: { kind: 'flat-bar', width: 40, height: 10, wall: 0, cornerRadius: 0 },
    }
    expect(together([of('A', 900, 1, ['post']), flat], wishes(['post', 'bar']))).toEqual([
      undefined,
      undefined,
    ])
  })

  test('sides that another size makes alike, of which one was named, are all meant, once', () => {
    const all = of('A', 700, 4, ['side-1', 'side-2', 'side-3', 'side-4'])
    expect(together([all], wishes(['side-1', 'side-3'], ['side-2', 'side-4']))).toEqual(['job/A'])
  })

  test('taken up, joined, parted and given up: the lists of the job', () => {
    const alone = wish({}, long, [])
    expect(alone).toEqual([['side-1', 'side-3']])
    const both = wish({ oneStick: alone! }, long, [short])
    expect(both).toEqual([['side-1', 'side-3', 'side-2', 'side-4']])
    expect(wish({ oneStick: both! }, short, undefined)).toEqual([['side-1', 'side-3']])
    expect(wish({ oneStick: alone! }, long, undefined)).toBeUndefined()
  })
})

describe('what comes of it', () => {
  const [A, B] = wantedTogether([long, short], wishes(['side-1', 'side-3'], ['side-2', 'side-4'])) as [
    Part,
    Part,
  ]
  const [allA, allB] = wantedTogether([long, short], wishes(['side-1', 'side-2'])) as [Part, Part]

  test('each copy has a stick of its own: pieces 1 and 2 of copy 1, 3 and 4 of copy 2', () => {
    const square = { p: 0, q: 0 }
    const asked = {
      job: 'job',
      mark: 'A',
      key: 'k',
      mid: 900,
      ends: [square, square],
      turns: ['none'],
    } as const
    expect(
      byCopy({ ...asked, count: 3, perCopy: 2, first: 2 }, A).map(({ first, count, same }) => [
        first,
        count,
        same,
      ]),
    ).toEqual([
      [2, 1, 'job/A/1'],
      [3, 2, 'job/A/2'],
    ])
  })

  // 900 + 2.5 + 900 + 2.5 + 900 = 2705 fits into 2927.5.
  test('six of 900 for three frames come from two sticks of 3000; a pair for each frame from three', () => {
    const alone = [of('A', 900, 2, ['side-1', 'side-3'])]
    expect(sticks(alone, [3000], 3)).toHaveLength(2)
    expect(sticks(wantedTogether(alone, wishes(['side-1'])), [3000], 3)).toEqual(['A1 A1', 'A2 A2', 'A3 A3'])
  })

  test('both from one stick: 3000 of steel and 3 kerfs go on 6000 and not on 2000, which is said', () => {
    expect(sticks([allA, allB], [6000])).toEqual(['A1 A1 B1 B1'])
    expect(sticks([allA, allB], [6000], 2)).toEqual(['A1 A1 B1 B1', 'A2 A2 B2 B2'])
    expect(sticks([allA, allB], [2000])).toMatch(
      /^2 × A, 2 × B are to come from one stick and need 3\d\d\d(\.\d+)? mm of it; the longest is 2000 mm\.$/,
    )
  })

  test('with miters from the stick, and with two halves from one blank, the same', () => {
    const [mitered] = wantedTogether([of('A', 900, 4, ['side-1'], [45, 45])], wishes(['side-1'])) as [Part]
    expect(sticks([mitered], [6000], 2, 'from the stick')).toEqual(['A1 A1 A1 A1', 'A2 A2 A2 A2'])
    const [arm] = wantedTogether([of('A', 300, 3, ['arm-1'], [0, 45])], wishes(['arm-1'])) as [Part]
    const made = nestByWay([arm], shop(), 'paired', 2)
    if (typeof made === 'string') throw new Error(made)
    expect(checkNest(made.nest, made.demand.problems).faults).toEqual([])
    // Of three arms two share a blank and one is alone: never one of each copy.
    expect(made.demand.problems[0]!.parts.map(({ mark, count, same }) => [mark, count, same])).toEqual([
      ['A', 1, 'job/A/1'],
      ['A', 1, 'job/A/2'],
      ['A+A', 1, 'job/A/1'],
      ['A+A', 1, 'job/A/2'],
    ])
  })

  test('the judge knows a nest that keeps others together, or none, from the one that is wanted', () => {
    const made = (parts: readonly Part[]) => {
      const asked = nestByWay(parts, shop(), 'square first')
      if (typeof asked === 'string') throw new Error(asked)
      return asked
    }
    const wanted = made([A, B])
    for (const parts of [
      [long, short],
      [allA, allB],
      [A, short],
    ])
      expect(checkNest(made(parts).nest, wanted.demand.problems).faults).not.toEqual([])
    // What it is called does not matter: marks change with the sizes.
    const named = JSON.parse(JSON.stringify(wanted.nest).replaceAll('job/A/1', 'x')) as typeof wanted.nest
    expect(checkNest(named, wanted.demand.problems).faults).toEqual([])
  })
})
