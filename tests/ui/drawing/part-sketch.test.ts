import { describe, expect, test } from 'vitest'
import { buildOf, builds } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { partDrawings } from '../../../src/core/parts/part-drawing.ts'
import { plan } from '../../../src/core/plan.ts'
import type { Plan } from '../../../src/core/plan-shapes.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { alongOf, spreadOut } from '../../../src/ui/drawing/along.ts'
import { partSvg } from '../../../src/ui/drawing/part-picture.tsx'
import { partSketch } from '../../../src/ui/drawing/part-sketch.ts'
import { besideWords, type Item, textSize, textWide } from '../../../src/ui/drawing/sketch.ts'

function planned(kind: string, units: 'in' | 'mm'): Plan {
  const made = plan(newJob(buildOf(kind)!, units, 'j'), startShop(units))
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return made.value
}

const texts = (items: readonly Item[]) => items.filter((item) => item.kind === 'text')
const numbers = (d: string) => [...d.matchAll(/-?\d+(\.\d+)?/g)].map(([each]) => Number(each))

/** Rectangle of a text, at the narrowest that system faces set it: an overlap of these is an overlap in all of them. */
function boxOf({ x, y, text, anchor, size = textSize, turned }: Extract<Item, { kind: 'text' }>) {
  const wide = textWide(text, size) * 0.85
  const [high, back] = [size * 0.7, anchor === 'middle' ? wide / 2 : anchor === 'end' ? wide : 0]
  return turned ? [x - high, x, y - wide, y] : [x - back, x - back + wide, y - high, y]
}

describe.each(
  builds.flatMap(
    ({ kind }) =>
      [
        [kind, 'in' as const],
        [kind, 'mm' as const],
      ] as const,
  ),
)('the part drawings of %s in %s', (kind, units) => {
  const made = planned(kind, units)
  const { reading } = startShop(units)
  const drawings = partDrawings(made)

  test.each([190, 92])('on %s mm, no number stands on another or off the sheet', (wide) => {
    for (const drawing of drawings)
      for (const [at, { items, high }] of partSketch(drawing, reading, wide).entries()) {
        const boxes = texts(items).map((item) => ({ said: item.text, box: boxOf(item) }))
        for (const [k, { said, box }] of boxes.entries()) {
          const where = `“${said}” of ${drawing.part.mark}, piece ${at}`
          expect(box[0], where).toBeGreaterThanOrEqual(-0.5)
          expect(box[1], where).toBeLessThanOrEqual(wide + 0.5)
          expect(box[3], where).toBeLessThanOrEqual(high + 0.5)
          for (const other of boxes.slice(k + 1)) {
            const apart =
              box[1]! <= other.box[0]! ||
              other.box[1]! <= box[0]! ||
              box[3]! <= other.box[2]! ||
              other.box[3]! <= box[2]!
            expect(apart, `${where} on “${other.said}”`).toBe(true)
          }
        }
      }
  })

  test('each face is to scale: its depth on paper and the lean of its ends are those of the steel', () => {
    for (const drawing of drawings) {
      const faces = partSketch(drawing, reading, 190).slice(1)
      const scales = drawing.faces.map(({ across, outline, upper, lower }, k) => {
        const steel = numbers(pathOf(faces[k]!.items))
        const [xs, ys] = [steel.filter((_, at) => at % 2 === 0), steel.filter((_, at) => at % 2 === 1)]
        const scale = (Math.max(...ys) - Math.min(...ys)) / across
        // First point: end A at the upper rim; the one after the lower rim of A is end B at its lower rim.
        const half = outline.length / 2
        expect(xs[half - 1]! - xs[0]!).toBeCloseTo((lower.from - upper.from) * scale, 1)
        expect(xs[half]! - xs.at(-1)!).toBeCloseTo((lower.to - upper.to) * scale, 1)
        return scale
      })
      for (const scale of scales) expect(scale).toBeCloseTo(scales[0]!, 3)
    }
  })

  test('every landing has both its edges as numbers over its face, and its mark under it', () => {
    for (const drawing of drawings) {
      const faces = partSketch(drawing, reading, 190).slice(1)
      for (const [k, { marks }] of drawing.faces.entries()) {
        const turned = texts(faces[k]!.items).filter((item) => item.turned)
        const near = new Set(marks.flatMap((mark) => [mark.near, mark.far].map((mm) => Math.round(mm * 10))))
        if (marks.length === 0) expect(turned).toEqual([])
        else expect(turned.length).toBeGreaterThanOrEqual(Math.min(2, near.size))
        for (const { by } of marks)
          expect(texts(faces[k]!.items).some(({ text }) => text === drawing.markOf(by))).toBe(true)
      }
    }
  })
})

const pathOf = (items: readonly Item[]): string => {
  const steel = items.find(({ kind }) => kind === 'steel')
  return steel && steel.kind === 'steel' ? steel.d : ''
}

describe('a long piece on little paper', () => {
  // 2000 long, 40 deep, on 150: whole it would be 3 deep.
  const laid = alongOf(
    [
      [0, 0],
      [980, 1020],
      [2000, 2000],
    ],
    2000,
    40,
    150,
    { least: 10, most: 16 },
  )

  test('is 10 deep with two breaks, its ends at both ends of the room, a landing of 40 as wide as it is deep', () => {
    expect(laid.scale).toBeCloseTo(0.25, 9)
    expect(laid.breaks).toHaveLength(2)
    expect(laid.at(0)).toBe(0)
    expect(laid.at(2000)).toBeCloseTo(150, 6)
    expect(laid.at(1020) - laid.at(980)).toBeCloseTo(10, 6)
  })

  test('a short one is whole', () => {
    expect(alongOf([[0, 400]], 400, 40, 150, { least: 10, most: 16 }).breaks).toEqual([])
  })
})

test('numbers nearer than 5 are moved apart, and back from the end of the room', () => {
  expect(spreadOut([10, 11, 30], 5, 100)).toEqual([10, 15, 30])
  expect(spreadOut([95, 98, 99], 5, 100)).toEqual([90, 95, 100])
})

test('the file says its size in mm, and holds every mark of a way', () => {
  const made = planned('rack', 'mm')
  const svg = partSvg(made, 'A', startShop('mm').reading)
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="200mm"/)
  expect(svg.match(/ways of marking it out/g)).toHaveLength(4)
  expect(svg).not.toContain('NaN')
})

test('a dimension line leaves out its words: of 100 mm under ten signs 35.8 on each side, under 40 signs nothing', () => {
  // Ten signs at 0.6 of 4.4 mm are 26.4 mm, and 1 mm beside them on each side.
  const [before, after] = besideWords(110, 10, 'long 15 16')
  expect(before).toEqual([10, expect.closeTo(45.8, 9)])
  expect(after).toEqual([expect.closeTo(74.2, 9), 110])
  expect(besideWords(10, 110, 'x'.repeat(40))).toEqual([])
})
