import { describe, expect, test } from 'vitest'
import { checkRun } from '../../../src/core/check/check-run.ts'
import type { Program, Run, SetUp, Step } from '../../../src/core/plan-shapes.ts'
import type { Saw, Shop } from '../../../src/core/shop.ts'
import { damaged, type Open, saw, shop, tube40 } from './documents.ts'
import { hexagonNest, hexagonRun, side } from './hexagon.ts'

const faultsOf = (run: Run, at: Shop = shop) => checkRun(run, hexagonNest, [side], at).faults
const withSaw = (more: Partial<Saw>): Shop => ({ ...shop, saws: [{ ...saw, ...more }] })
const limits = (more: Partial<Saw['limits']>) => withSaw({ limits: { ...saw.limits, ...more } })

test('the hexagon run of 404 in 40 tube, written out by hand, is faultless', () =>
  expect(faultsOf(hexagonRun)).toEqual([]))

test('also where the stops are printed as 405.5875 and 404.79375, unrounded', () => {
  const stops: Record<number, number> = { 406: 405.5875, 405: 404.79375, 404: 404 }
  const unrounded = damaged(hexagonRun, (run) => {
    for (const setUp of run.setUps) {
      setUp.stop = stops[setUp.stop]!
      setUp.printed.stop = { mm: setUp.stop, text: String(setUp.stop), unit: 'mm' }
    }
    for (const { steps } of run.programs)
      for (const step of steps) if ('stop' in step) step.stop = stops[step.stop]!
  })
  expect(faultsOf(unrounded)).toEqual([])
})

type Steps = Open<Step>[]
interface Whole {
  readonly run: Open<Run>
  readonly blanks: Open<Program>
  /** First and second end of A1. */
  readonly first: Open<Program>
  readonly second: Open<Program>
  readonly setUps: Record<'blanks' | 'first' | 'second', Open<SetUp>>
}

function damage(by: (whole: Whole) => void): Run {
  return damaged(hexagonRun, (run) => {
    const named = (id: string) => run.programs.find((program) => program.id === id)!
    const [blanks, first, second] = run.setUps as [Open<SetUp>, Open<SetUp>, Open<SetUp>]
    by({
      run,
      blanks: named('P1'),
      first: named('first 1'),
      second: named('second 1'),
      setUps: { blanks, first, second },
    })
  })
}

const setStop = (steps: Steps, stop: number, exact = stop) => {
  steps[steps.findIndex((step) => 'stop' in step)] = { stop, exact }
}
const setHead = (steps: Steps, swing: number) => {
  steps[0] = { head: [swing, 0] }
}
const noTurn = (steps: Steps) => steps.splice(1, 1)

const damages: readonly (readonly [string, (whole: Whole) => void, string])[] = [
  // What the person does, and what comes out.
  [
    'no turn before the second end',
    ({ second }) => noTurn(second.steps),
    'piece A1 comes out with ends that slope 0, 0 and 0.5774, 0, which no turning brings to those of part A',
  ],
  [
    'turned end for end instead of flipped: a parallelogram',
    ({ second }) => (second.steps[1] = { turn: 'end' }),
    'piece A1 comes out with ends that slope 0.5774, 0 and 0.5774, 0, which no turning brings to those of part A',
  ],
  [
    'the head swung the other way at the second end',
    ({ second }) => setHead(second.steps, 30),
    'program second 1: cut A1: not enough steel, 22.3003 mm are missing at the far end',
  ],
  [
    'the head at 29.9°',
    ({ run }) => {
      for (const program of run.programs.slice(1)) setHead(program.steps, -29.9)
      for (const setUp of run.setUps.slice(1)) setUp.swing = -29.9
    },
    'piece A1 comes out with ends that slope -0.575, 0',
  ],
  [
    'a stop 0.01 short',
    ({ second, run }) => {
      setStop(second.steps, 404, 403.99)
      run.setUps[2]!.exact = 403.99
    },
    'piece A1 comes out with long point 403.99 mm; part A is 404 mm before rounding',
  ],
  [
    'edges that are not those of the part',
    ({ second }) => setStop(second.steps, 404, 403.99),
    'comes out with edges',
  ],
  [
    'a printed stop one reading off',
    ({ run, setUps }) => {
      for (const { id, steps } of run.programs) if (id.startsWith('second')) setStop(steps, 405, 404)
      setUps.second.stop = 405
      setUps.second.printed.stop = { mm: 405, text: '405', unit: 'mm' }
    },
    'rounds a stop of 404 mm to 405 mm, by more than 0.5 mm',
  ],
  ['a head left at 0', ({ first }) => first.steps.shift(), 'says swing -30°; the program has 0°'],
  ['no stop set', ({ first }) => first.steps.splice(1, 1), 'program first 1: cut A1.m: no stop is set'],
  ['a stop of 0', ({ first }) => setStop(first.steps, 0), 'the blade would run past its leading end'],
  [
    'the mill end not cleaned up',
    ({ blanks }) => blanks.steps.splice(1, 1),
    'program P1: cut A1.b: its mill end has not been cleaned up',
  ],
  [
    'half a clean-up',
    ({ blanks }) => (blanks.steps[1] = { trim: 5 }),
    'a clean-up cut of 5 mm; the nest reckons with 10 mm',
  ],
  [
    'a clean-up thinner than the blade',
    ({ blanks }) => (blanks.steps[1] = { trim: 2 }),
    'a clean-up cut of 2 mm is less than its own kerf',
  ],
  [
    'more steel than the stick has',
    ({ blanks, setUps }) => {
      setStop(blanks.steps, 1406)
      setUps.blanks.stop = 1406
    },
    'program P1: cut A5.b: not enough steel',
  ],
  [
    'a blank of another length than the nest says',
    ({ blanks }) => setStop(blanks.steps, 410),
    'A1.b leaves the stick 410 mm long at the middle; the nest says 405.5875 mm',
  ],
  // What is named, and what becomes of it.
  [
    'a stick that the nest does not have',
    ({ blanks }) => (blanks.load = 'S9'),
    'S9 is loaded, but is no stick of the nest',
  ],
  [
    'the same stick twice',
    ({ run }) => run.programs.push({ ...structuredClone(run.programs[0]!), id: 'again' }),
    'program again: S2 is loaded a second time',
  ],
  [
    'one blank twice',
    ({ run }) => (run.programs[2]!.load = 'A1.b'),
    'program first 2: A1.b is loaded a second time',
  ],
  [
    'a half loaded before it is cut',
    ({ run }) => run.programs.unshift(run.programs.pop()!),
    'program second 6: A6.m is loaded, but is no stick of the nest, and no product made before',
  ],
  ['a piece never made', ({ run }) => run.programs.pop(), 'piece A6 of the nest is never made'],
  [
    'a blank that nothing is made of',
    ({ run }) => run.programs.splice(6, 1),
    'A6.b is a blank that nothing is made of',
  ],
  [
    'a piece too many',
    ({ run, blanks, setUps }) => {
      blanks.steps.splice(9, 0, { cut: { keep: 'A7', rest: 'on' }, setUp: 'blanks' })
      setUps.blanks.pieces.push('A7')
      run.products.push({ id: 'A7', from: 'S2', kind: 'piece' })
    },
    'piece A7 is made, but the nest does not want it',
  ],
  [
    'two products of one name',
    ({ blanks }) => (blanks.steps[4] = { cut: { keep: 'A1.b', rest: 'on' }, setUp: 'blanks' }),
    'program P1: A1.b is made a second time',
  ],
  [
    'a product that is in no list',
    ({ run }) => run.products.pop(),
    'S2.1 is made, but stands in no list of products',
  ],
  [
    'a product that no program makes',
    ({ run }) => run.products.push({ id: 'X', from: 'S2', kind: 'drop' }),
    'product X is listed, but no program makes it',
  ],
  [
    'a product from elsewhere',
    ({ run }) => (run.products[0]!.from = 'S1'),
    'product A1.b is said to come from S1; it comes from S2',
  ],
  [
    'a key of another part',
    ({ run }) => (run.products[2]!.key = 'key B'),
    'piece A1 is listed with key key B; the nest says key A',
  ],
  [
    'a piece of another copy',
    ({ run }) => (run.products[2]!.copy = 2),
    'piece A1 is listed with copy 2; the nest says 1',
  ],
  ['a piece listed as a drop', ({ run }) => (run.products[2]!.kind = 'drop'), 'piece A1 is listed as a drop'],
  [
    'pieces said to come out of another blank',
    ({ run }) => (run.products[0]!.makes = ['A2']),
    'product A1.b is said to make A2, which does not come out of it',
  ],
  [
    'halves of two blanks changed over',
    ({ run }) => {
      run.programs[1]!.load = 'A2.b'
      run.programs[2]!.load = 'A1.b'
    },
    'piece A1 is cut from A2.b; the nest says from blank A1.b',
  ],
  [
    'a drop 10 longer',
    ({ run }) => (run.products.at(-1)!.length! += 10),
    'drop S2.1 is said to be 3551.475 mm long; 3541.475 mm are left',
  ],
  [
    'a stick left on the saw',
    ({ blanks }) => blanks.steps.pop(),
    'program P1: ends with S2 still on the saw',
  ],
  [
    'a cut after everything was put away',
    ({ first }) => first.steps.push({ cut: { keep: 'Y', rest: 'scrap' }, setUp: 'first ends' }),
    'program first 1: cut: nothing lies on the saw',
  ],
  ['a program twice', ({ run }) => (run.programs[1]!.id = 'P1'), 'program P1 stands twice'],
  // What people read.
  [
    'a set-up with another swing',
    ({ setUps }) => (setUps.first.swing = 30),
    'cut A1.m: says swing 30°; the program has -30°',
  ],
  ['a set-up with a tilt', ({ setUps }) => (setUps.first.tilt = 1), 'says tilt 1°; the program has 0°'],
  [
    'a set-up with another stop',
    ({ setUps }) => (setUps.second.stop = 403),
    'cut A1: says stop 403 mm; the program has 404 mm',
  ],
  [
    'a set-up with another exact stop',
    ({ setUps }) => (setUps.second.exact = 404.1),
    'says exact 404.1 mm; the program has 404 mm',
  ],
  [
    'a set-up for another saw',
    ({ setUps }) => (setUps.second.saw = 'other'),
    'says saw other; its program says saw',
  ],
  [
    'a set-up with the stop on the other side',
    ({ setUps }) => (setUps.second.stopSide = 'right'),
    'says stopSide right; its program says left',
  ],
  [
    'a set-up that holds the other side',
    ({ setUps }) => (setUps.second.hold = 'stick'),
    'says hold stick; its program says stop',
  ],
  [
    'a set-up for another section',
    ({ setUps }) => (setUps.second.section.wall = 3),
    'is for square-tube 40 40 3 4; on the saw lies square-tube 40 40 2 4',
  ],
  [
    'a set-up with the long side outward',
    ({ setUps }) => (setUps.second.longSide = 'outward'),
    'says the long side lies outward; it lies at the fence',
  ],
  [
    'a set-up without one of its pieces',
    ({ setUps }) => setUps.second.pieces.pop(),
    'set-up second ends: lists A1, A2, A3, A4, A5; its cuts make A1, A2, A3, A4, A5, A6',
  ],
  [
    'a set-up in another order',
    ({ setUps }) => setUps.second.pieces.reverse(),
    'set-up second ends: lists A6, A5',
  ],
  ['a set-up that is not there', ({ run }) => run.setUps.pop(), 'cut A1: there is no set-up second ends'],
  [
    'a set-up twice',
    ({ run }) => run.setUps.push(structuredClone(run.setUps[0]!)),
    'set-up blanks stands twice',
  ],
  [
    'other digits than the stop',
    ({ setUps }) => (setUps.second.printed.stop.text = '440'),
    'prints “440” mm for a stop of 404 mm',
  ],
  [
    'inches for millimeters',
    ({ setUps }) => (setUps.second.printed.stop.unit = 'in'),
    'prints “404” in for a stop of 404 mm',
  ],
  [
    'other millimeters beside the digits',
    ({ setUps }) => (setUps.second.printed.stop.mm = 440),
    'prints a stop of 440 mm for 404 mm',
  ],
  [
    'another miter in digits',
    ({ setUps }) => (setUps.second.printed.miter.text = '60°'),
    'prints a miter of “60°”; the scale of cold saw shows 30°',
  ],
  // What the saw can do.
  [
    'a saw that the shop does not have',
    ({ first }) => (first.saw = 'band saw'),
    'the shop has no saw band saw',
  ],
  [
    'another kerf than the blade takes',
    ({ first }) => (first.kerf = 2),
    'reckons with a kerf of 2 mm; the blade on cold saw takes 2.5 mm',
  ],
  [
    'a NaN for a swing',
    ({ first }) => setHead(first.steps, Number.NaN),
    'the blade would run past its leading end',
  ],
  [
    'the scrap held instead of the piece',
    ({ first }) => (first.hold = 'stick'),
    'the vise holds 0 mm of the stick; it needs 60 mm',
  ],
]

describe('each damage is refused, and named', () => {
  test.each(damages)('%s', (_, by, words) =>
    expect(faultsOf(damage(by))).toEqual(expect.arrayContaining([expect.stringContaining(words)])),
  )
})

describe('the saw of the shop', () => {
  const refused = (at: Shop, words: string) =>
    expect(faultsOf(hexagonRun, at)).toEqual(expect.arrayContaining([expect.stringContaining(words)]))

  test('swings 30.0° toward the stop, not with a limit of 29.9°', () => {
    expect(faultsOf(hexagonRun, limits({ towardStop: 30, awayFromStop: 0 }))).toEqual([])
    refused(limits({ towardStop: 29.9 }), 'a miter of -30°; cold saw swings 29.9° that way')
  })
  test('takes a stop of 406, not with a longest of 405', () => {
    expect(faultsOf(hexagonRun, limits({ longestStop: 406 }))).toEqual([])
    refused(limits({ longestStop: 405 }), 'a stop of 406 mm; the longest is 405 mm')
  })
  test('holds 357.8 of the finished piece on its short edge, not with 358 needed', () => {
    expect(faultsOf(hexagonRun, withSaw({ leastToHold: 357.8 }))).toEqual([])
    refused(
      withSaw({ leastToHold: 358 }),
      'program second 1, cut A1: the vise holds 357.812 mm of A1; it needs 358 mm',
    )
  })
  test('a vise on one side only does not hold the other', () => {
    refused(
      withSaw({ viseHolds: 'stick' }),
      "program first 1: holds the stop's side; with its stop at the left the vise",
    )
    refused(withSaw({ viseHolds: 'stop' }), "program P1: holds the stick's side")
  })
  test('a scale that reads 90 at square shows 60 for a miter of 30°, and 90 for a square cut', () => {
    refused(withSaw({ readsAtSquare: 90 }), 'prints a miter of “30°”; the scale of cold saw shows 60°')
    const shows60 = damage(({ setUps }) => {
      setUps.blanks.printed.miter = { deg: 90, text: '90°' }
      setUps.first.printed.miter = { deg: 60, text: '60°' }
      setUps.second.printed.miter = { deg: 60, text: '60°' }
    })
    expect(faultsOf(shows60, withSaw({ readsAtSquare: 90 }))).toEqual([])
  })
  test('a saw that does not tilt makes no bevel', () => {
    const tilted = damage(({ first }) => (first.steps[0] = { head: [-30, -1] }))
    expect(faultsOf(tilted)).toEqual(
      expect.arrayContaining([expect.stringContaining('cold saw does not tilt')]),
    )
  })
})

describe('the part that the piece is to be', () => {
  const against = (more: Partial<typeof side>) =>
    checkRun(hexagonRun, hexagonNest, [{ ...side, ...more }], shop).faults

  test('printed as 405 the pieces of 404 are refused', () =>
    expect(against({ printed: { ...side.printed, length: { mm: 405, text: '405', unit: 'mm' } } })).toContain(
      'piece A1 comes out with long point 404 mm by the printed stops; part A is printed as 405 mm, and the shop reads 1 mm',
    ))
  test('with one edge 0.01 longer they are refused', () => {
    const [a, b, c, d] = side.edges
    expect(against({ edges: [a, b, c, d + 0.01] })).toHaveLength(6)
  })
  test('with another mark, another key, or no part at all they are refused', () => {
    expect(against({ mark: 'B' })).toContain('piece A1 is marked A; the part with its key is B')
    expect(against({ key: 'other' })).toContain('piece A1: no part has its key')
    expect(checkRun(hexagonRun, hexagonNest, [], shop).faults).toHaveLength(6)
  })
})

describe('a delivery that measures 40.5', () => {
  const carried = { section: tube40, name: '40', stock: [], measured: { width: 40.5, height: 40.5 } }
  const measuring: Shop = { ...shop, sections: [carried] }
  const outward = (exact: number) =>
    damage(({ run }) => {
      // The long side outward: both ends swung the other way; first end 0.79375 longer.
      for (const program of run.programs) {
        if (program.id.startsWith('first'))
          setStop(program.steps, Math.round(exact + 0.79375), exact + 0.79375)
        if (program.id.startsWith('second')) setStop(program.steps, Math.round(exact), exact)
        if (program.id !== 'P1') setHead(program.steps, 30)
      }
      for (const [index, setUp] of run.setUps.entries()) {
        if (index === 0) continue
        setUp.swing = 30
        setUp.longSide = 'outward'
        setUp.exact = index === 1 ? exact + 0.79375 : exact
        setUp.stop = Math.round(setUp.exact)
        setUp.printed.stop = { mm: setUp.stop, text: String(setUp.stop), unit: 'mm' }
      }
    })
  const tan30 = Math.tan(Math.PI / 6)

  test('gives the same long point with the long side at the fence', () =>
    expect(faultsOf(hexagonRun, measuring)).toEqual([]))
  test('outward the stop must reckon with 40.5', () => {
    expect(faultsOf(outward(404 - 40.5 * tan30), measuring)).toEqual([])
    expect(faultsOf(outward(404 - 40 * tan30))).toEqual([])
    expect(faultsOf(outward(404 - 40 * tan30), measuring)).toContain(
      'piece A1 comes out with long point 404.2887 mm; part A is 404 mm before rounding',
    )
  })
})

// Six blanks of 405.5875 and five kerfs come out of 2446.025 to the last step; set at the printed 406 they do not.
test('blanks set at a printed 406 run out of a stick that is just long enough for 405.5875', () => {
  const length = 6 * 405.5875 + 5 * 2.5
  const nest = damaged(hexagonNest, (copy) => {
    const section = copy.sections[0]!
    const stick = section.sticks[0]!
    Object.assign(section, { trim: 0, grip: 0 })
    Object.assign(stick, { length, ends: ['cut', 'cut'], drop: 0 })
    for (const piece of stick.pieces) for (const end of piece.ends) end.x -= 5990 - length
  })
  const run = (stop: number) =>
    damage(({ run, blanks, setUps }) => {
      blanks.steps.splice(1, 1)
      setStop(blanks.steps, stop, 405.5875)
      blanks.steps.splice(-2, 2, { cut: { keep: 'A6.b', rest: 'scrap' }, setUp: 'blanks' })
      setUps.blanks.stop = stop
      setUps.blanks.printed.stop = { mm: stop, text: String(stop), unit: 'mm' }
      run.products.pop()
    })
  const judged = (stop: number) => checkRun(run(stop), nest, [side], withSaw({ leastToHold: 0 })).faults
  expect(judged(405.5875)).toEqual([])
  expect(judged(406)[0]).toBe(
    'by the printed stops, program P1: cut A6.b: not enough steel, 2.475 mm are missing at the far end',
  )
})
