import { describe, expect, test } from 'vitest'
import { buildOf } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import type { Plate } from '../../src/core/frame/frame.ts'
import { plan } from '../../src/core/plan.ts'
import type { Plan } from '../../src/core/plan-shapes.ts'
import { say } from '../../src/core/reading/show.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { laidPlates } from '../../src/paper/plate.ts'
import { marksOf, plateBlocks, scaleOf } from '../../src/paper/plate-sheet.tsx'
import { pageSizes } from '../../src/paper/size.ts'

const inches = startShop('in')
const inch = 25.4

function octagon(): Plan {
  const job = newJob(buildOf('polygon-frame')!, 'in', 'octagon')
  const params = { ...job.build.params, sides: 8, size: '26', top: 'plate' }
  const made = plan({ ...job, build: { ...job.build, params } }, inches)
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return made.value
}

/** The plan with one plate in it, of this outline. */
function withPlate(polygon: Plate['polygon'], holes: Plate['holes'] = []): Plan {
  const base = octagon()
  const [plate] = base.frame.plates
  return { ...base, frame: { ...base.frame, plates: [{ ...plate!, polygon, holes }] } }
}

const turned = (polygon: Plate['polygon'], degrees: number): Plate['polygon'] => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
  return polygon.map(([x, y]) => [x * c - y * s, x * s + y * c])
}

const sayInches = (mm: number) => say(mm, inches.reading)

describe('plates marked out from two edges', () => {
  test('octagon 26 in across flats: 7 5/8 in from each corner of its square (figure of the octagon scale on a framing square)', () => {
    const [plate] = laidPlates(octagon(), sayInches)
    expect([plate!.width / inch, plate!.height / inch]).toEqual([
      expect.closeTo(26, 6),
      expect.closeTo(26, 6),
    ])
    expect(marksOf(plate!, inches).points).toEqual([
      '1:  7 5/8, 0',
      '2:  18 3/8, 0',
      '3:  26, 7 5/8',
      '4:  26, 18 3/8',
      '5:  18 3/8, 26',
      '6:  7 5/8, 26',
      '7:  0, 18 3/8',
      '8:  0, 7 5/8',
    ])
    // Across the corners: 26 / cos 22.5° = 28.142.
    expect(plate!.diagonals.map(({ length }) => length / inch)).toEqual(
      Array(4).fill(expect.closeTo(28.142, 3)),
    )
  })

  test('a rectangle that lies turned by 37° is marked out lying level, its hole with it', () => {
    const rect = [
      [0, 0],
      [300, 0],
      [300, 200],
      [0, 200],
    ] as const
    const [hole] = turned([[50, 30]], 37)
    const [plate] = laidPlates(withPlate(turned(rect, 37), [[...hole!, 9] as const]), sayInches)
    const { points, checks } = marksOf(plate!, { ...inches, reading: { kind: 'mm', step: 1 } })
    // The same place, or that of a quarter or half turn, which is the same plate.
    expect(
      [
        ['50, 30', '250, 170'],
        ['30, 250', '170, 50'],
      ].flat(),
    ).toContain(points.at(-1)!.replace('h1:  ', ''))
    // √(300² + 200²)
    expect(checks).toEqual(['1 to 3:  361 mm', '2 to 4:  361 mm'])
  })

  test('188 × 100 mm is drawn at full size on A4, 188.1 is not: its scale is said to be small', () => {
    const room = { wide: 190, high: 200 }
    const [plate] = laidPlates(octagon(), sayInches)
    expect(scaleOf({ ...plate!, width: 188, height: 100 }, room)).toBe(1)
    expect(scaleOf({ ...plate!, width: 188.1, height: 100 }, room)).toBeLessThan(1)
    const texts = plateBlocks(octagon(), inches, pageSizes.Letter)[0]!.strips.flatMap(({ what }) =>
      what.kind === 'text' ? [what.text] : [],
    )
    expect(texts[0]).toBe('26 in × 26 in over all. Drawn small: mark it out.')
    // Sheet top last is the habit of the trade: common practice.
    expect(texts[1]).toBe(
      'Cut it last. Lay the plate on the frame as built, scribe round the frame, and cut on the line. The numbers are those of the drawing.',
    )
  })
})
