// The saw done over with solids, tried on set-ups worked by hand, and on runs with one fault each.
import { describe, expect, test } from 'vitest'
import type { Nest, StickEnd } from '../../src/core/nest.ts'
import type { Product, Program, Run, SetUp, Step } from '../../src/core/plan-shapes.ts'
import type { Section } from '../../src/core/section/section.ts'
import { extent, type Solid, scope, surfaceOf } from './kernel.ts'
import { unlike } from './same.ts'
import { type Sawn, saw } from './saw.ts'

const tube = (width: number, cornerRadius = 0): Section => ({
  kind: 'square-tube',
  width,
  height: width,
  wall: 2,
  cornerRadius,
})

interface Set {
  readonly swing?: number
  readonly tilt?: number
  readonly roll?: number
  readonly ramp?: number
  readonly stop: number
}

const shown = { mm: 0, text: '', unit: 'mm' } as const
const angle = { deg: 0, text: '' }

function setUp(id: string, section: Section, side: 'left' | 'right', keep: string, given: Set): SetUp {
  const { swing = 0, tilt = 0, roll = 0, ramp = 0, stop } = given
  return {
    id,
    saw: 's',
    section,
    swing,
    tilt,
    roll,
    ramp,
    stop,
    exact: stop,
    stopSide: side,
    hold: 'stick',
    longSide: 'fence',
    faceDown: '-z',
    pieces: [keep],
    printed: { stop: shown, miter: angle, lean: '', longSide: '', turn: '' },
  }
}

const setSteps = ({ swing = 0, tilt = 0, roll = 0, ramp = 0, stop }: Set): Step[] => [
  { head: [swing, tilt] },
  ...(roll ? [{ roll }] : []),
  ...(ramp ? [{ ramp }] : []),
  { stop, exact: stop },
]

/** A stick of 1000, cut square to a blank, then one end at each of these settings, with what is done between. */
function chain(
  section: Section,
  side: 'left' | 'right',
  blank: number,
  ends: readonly (Set & { readonly turn?: 'over' | 'end' | 'flip' | 'quarter+' | 'quarter-' })[],
) {
  const names = ['A1.b', 'A1.m', 'A1'].slice(-ends.length - 1)
  const setUps = [
    setUp('u0', section, side, names[0]!, { stop: blank }),
    ...ends.map((end, at) => setUp(`u${at + 1}`, section, side, names[at + 1]!, end)),
  ]
  const base = { saw: 's', stopSide: side, hold: 'stick', kerf: 2.5 } as const
  const programs: Program[] = [
    {
      ...base,
      id: 'S1',
      load: 'S1',
      steps: [
        { head: [0, 0] },
        { trim: 10 },
        { stop: blank, exact: blank },
        { cut: { keep: names[0]!, rest: 'on' }, setUp: 'u0' },
        { unload: 'scrap' },
      ],
    },
    ...ends.map(
      (end, at): Program => ({
        ...base,
        id: names[at]!,
        load: names[at]!,
        steps: [
          ...(end.turn ? [{ turn: end.turn }] : []),
          ...setSteps(end),
          { cut: { keep: names[at + 1]!, rest: 'scrap' }, setUp: `u${at + 1}` },
        ],
      }),
    ),
  ]
  const stickEnds: readonly [StickEnd, StickEnd] = ['mill', 'mill']
  const nest: Nest = {
    version: 1,
    id: 'n',
    solver: 'hand',
    jobs: ['j'],
    sections: [
      {
        section,
        kerf: 2.5,
        trim: 10,
        grip: 0,
        way: 'square first',
        demand: [],
        stock: [],
        sticks: [
          {
            id: 'S1',
            from: 'buy',
            length: 1000,
            price: 0,
            ends: stickEnds,
            way: 'square first',
            pieces: [],
            drop: 0,
          },
        ],
        cost: 0,
        bound: 0,
        proved: false,
      },
    ],
  }
  const products: Product[] = []
  const run: Run = {
    setUps,
    programs,
    products,
    work: { heads: 0, stops: 0, loads: 0, turns: 0, cuts: 0, minutes: 0 },
  }
  return { run, nest }
}

const sawn = (...given: Parameters<typeof chain>): Sawn => {
  const { run, nest } = chain(...given)
  return saw(run, nest, 'stop')
}

/** Lengths of the four long edges as the piece lies: at the fence below and above, outward below and above. */
function lying(solid: Solid): number[] {
  const { points } = surfaceOf(solid)
  const [low, high] = [1, 2].map((axis) => {
    const values = points.map((point) => point[axis]!)
    return [Math.min(...values), Math.max(...values)] as const
  }) as [readonly [number, number], readonly [number, number]]
  return low.flatMap((y) =>
    high.map((z) => {
      const xs = points.filter((point) => Math.hypot(point[1] - y, point[2] - z) < 1e-6).map(([x]) => x)
      return Math.max(...xs) - Math.min(...xs)
    }),
  )
}

const wide = (solid: Solid) => extent(surfaceOf(solid), [1, 0, 0])
const near = (real: readonly number[], wanted: readonly number[], digits = 6) =>
  wanted.forEach((value, at) => {
    expect(real[at]).toBeCloseTo(value, digits)
  })

describe.each(['left', 'right'] as const)('with the stop at the %s', (side) => {
  test('40 tube, twice 30° at 404 with a flip between: a trapezoid of 404 and 357.812', () => {
    // Short side = 404 − 2 · 40 · tan 30° (reference table 1.2, after Machinery's Handbook, 31st ed., p. 82).
    scope(() => {
      const { made, faults } = sawn(tube(40), side, 405.5875, [
        { swing: -30, stop: 404.79375 },
        { swing: -30, stop: 404, turn: 'flip' },
      ])
      expect(faults).toEqual([])
      near(lying(made.get('A1')!.box), [404, 404, 357.812, 357.812], 3)
    })
  })

  test('the same with end for end instead of flip: a parallelogram, its edges all alike', () => {
    scope(() => {
      const { made } = sawn(tube(40), side, 405.5875, [
        { swing: -30, stop: 404.79375 },
        { swing: -30, stop: 404, turn: 'end' },
      ])
      const [one, ...others] = lying(made.get('A1')!.box)
      near(others, [one!, one!, one!])
      expect(wide(made.get('A1')!.box)).toBeCloseTo(404, 6)
    })
  })

  test('50 tube at 30°, edge 500: S = 500 + 50 tan 30° with the point outward, and 528.87 from tip to tip', () => {
    scope(() => {
      const { made } = sawn(tube(50), side, 600, [
        { swing: -30, stop: 550 },
        { swing: -30, stop: 500 + 50 * Math.tan(Math.PI / 6), turn: 'end' },
      ])
      near(lying(made.get('A1')!.box), [500, 500, 500, 500])
      expect(wide(made.get('A1')!.box)).toBeCloseTo(528.87, 2)
    })
  })

  test('50 tube, leading end 20°, cut 30°: 418.20 at the stop leaves 400 at the fence', () => {
    // The leading end x = F + y·tan 20° touches the plate outward, 50 · tan 20° = 18.20 past the fence.
    scope(() => {
      const { made } = sawn(tube(50), side, 600, [
        { swing: 20, stop: 550 },
        { swing: -30, stop: 418.2, turn: 'flip' },
      ])
      const [low, high] = lying(made.get('A1')!.box)
      near([low!, high!], [400, 400], 2)
    })
  })

  test('a cut whose blade leans toward the stop leaves the long side at the fence', () => {
    scope(() => {
      const { made } = sawn(tube(40), side, 500, [{ swing: -30, stop: 400 }])
      near(lying(made.get('A1')!.box), [
        400,
        400,
        400 - 40 * Math.tan(Math.PI / 6),
        400 - 40 * Math.tan(Math.PI / 6),
      ])
    })
  })
})

/** Angle from square of the end that was cut, and its two slopes, the lesser first, in degrees. */
function endAngles(solid: Solid): readonly [number, number, number] {
  const [lowFence, highFence, lowOut, highOut] = lying(solid) as [number, number, number, number]
  const { points } = surfaceOf(solid)
  const width = extent({ points, triangles: [] }, [0, 1, 0])
  const across = Math.abs(lowOut - lowFence) / width
  const up = Math.abs(highFence - lowFence) / width
  expect(highOut - lowOut).toBeCloseTo(highFence - lowFence, 6)
  const degrees = (slope: number) => (Math.atan(slope) * 180) / Math.PI
  const [less, more] = [across, up].sort((a, b) => a - b) as [number, number]
  return [degrees(Math.hypot(across, up)), degrees(less), degrees(more)]
}

describe('a leg that leans 8° one way and 12° the other, cut in every way that a saw knows', () => {
  // tan² = tan² 8° + tan² 12° gives 14.30° from square; cut planes worked from it (splay table, reference 1.4).
  const slopes = [Math.tan((8 * Math.PI) / 180), Math.tan((12 * Math.PI) / 180)] as const
  const deg = (radians: number) => (radians * 180) / Math.PI
  const size = Math.hypot(1, ...slopes)
  const ways: Record<string, Set> = {
    'swing 11.89, tilt': {
      swing: deg(Math.atan(slopes[1])),
      tilt: deg(Math.asin(slopes[0] / size)),
      stop: 400,
    },
    'swing 8, tilt': { swing: deg(Math.atan(slopes[0])), tilt: deg(Math.asin(slopes[1] / size)), stop: 400 },
    'cradle 33.48, one swing': {
      roll: -deg(Math.atan2(slopes[0], slopes[1])),
      swing: deg(Math.acos(1 / size)),
      stop: 400,
    },
    'cradle 56.52, one swing': {
      roll: -deg(Math.atan2(slopes[1], slopes[0])),
      swing: deg(Math.acos(1 / size)),
      stop: 400,
    },
    'ramp 8, swing': { ramp: deg(Math.atan(slopes[0])), swing: deg(Math.asin(slopes[1] / size)), stop: 400 },
    'ramp 12, swing': { ramp: deg(Math.atan(slopes[1])), swing: deg(Math.asin(slopes[0] / size)), stop: 400 },
  }
  test.each(Object.keys(ways))('%s: the same end', (way) => {
    scope(() => {
      const { made, faults } = sawn(tube(50, 6), 'left', 500, [ways[way]!])
      expect(faults).toEqual([])
      near(endAngles(made.get('A1')!.box), [deg(Math.atan(Math.hypot(...slopes))), 8, 12])
    })
  })

  test('the settings of the worked example make one end too: 11.89/8, 8.17/11.77, cradle 34.31 with 14.30', () => {
    scope(() => {
      const settings: Set[] = [
        { swing: 11.89, tilt: 8, stop: 400 },
        { swing: 8.17, tilt: 11.77, stop: 400 },
        { roll: -34.31, swing: 14.3, stop: 400 },
        { roll: -55.69, swing: 14.3, stop: 400 },
        { ramp: 8.17, swing: 11.77, stop: 400 },
        { ramp: 11.89, swing: 8, stop: 400 },
      ]
      const all = settings.map((setting) =>
        endAngles(sawn(tube(50), 'left', 500, [setting]).made.get('A1')!.box),
      )
      for (const angles of all) {
        expect(angles[0]).toBeCloseTo(14.3, 1)
        expect(Math.abs(angles[1] - all[0]![1])).toBeLessThan(0.02)
        expect(Math.abs(angles[2] - all[0]![2])).toBeLessThan(0.02)
      }
    })
  })
})

test('50 tube with corners of 6, end at 30° and 20°: the stop finds the steel 1.7 mm short of the sharp box', () => {
  // R(|p| + |q| − √(p² + q²)), p and q the slopes of the end: 6 · (0.5774 + 0.4203 − 0.7141) = 1.70.
  scope(() => {
    const cut = (radius: number) => {
      const tilt = 20
      const { made } = sawn(tube(50, radius), 'left', 500, [
        { swing: -30, tilt, stop: 450 },
        { swing: 0, stop: 400, turn: 'flip' },
      ])
      return wide(made.get('A1')!.box)
    }
    // The round piece is pushed on until its steel touches: its sharp box is longer by what the corner lacks.
    expect(cut(6) - cut(0)).toBeCloseTo(1.7, 1)
  })
})

describe('a fault in a run is found', () => {
  const given = [tube(40), 'left', 500, [{ swing: -30, stop: 400 }]] as const
  const changed = (change: (run: Run) => Run): Sawn => {
    const { run, nest } = chain(...given)
    return saw(change(run), nest, 'stop')
  }

  test('a record that says 29.9° where the program does 30°', () => {
    scope(() => {
      const { faults } = changed((run) => ({
        ...run,
        setUps: run.setUps.map((each) => (each.id === 'u1' ? { ...each, swing: -29.9 } : each)),
      }))
      expect(faults).toHaveLength(1)
      expect(faults[0]).toContain('set-up u1 says -29.9')
    })
  })

  test('a record for the other side of the blade', () => {
    scope(() => {
      const { faults } = changed((run) => ({
        ...run,
        setUps: run.setUps.map((each) => ({ ...each, stopSide: 'right' as const })),
      }))
      expect(faults.join()).toContain('different sides')
    })
  })

  test('a blank that is loaded twice, and one that was never made', () => {
    scope(() => {
      const twice = changed((run) => ({ ...run, programs: [...run.programs, run.programs[1]!] }))
      expect(twice.faults.join()).toContain('loaded a second time')
      const never = changed((run) => ({ ...run, programs: [run.programs[1]!] }))
      expect(never.faults.join()).toContain('is not there')
    })
  })

  test('a quarter turn of the wrong hand between two ends gives the mirror image, not the piece', () => {
    scope(() => {
      const made = (turn: 'quarter+' | 'quarter-') => {
        const { run, nest } = chain(tube(40), 'left', 500, [
          { swing: -30, stop: 450 },
          { swing: -20, stop: 400, turn },
        ])
        // Turned a quarter and then end for end: the cut end goes to the stop.
        const programs = run.programs.map((program) =>
          program.id === 'A1.m'
            ? { ...program, steps: [program.steps[0]!, { turn: 'flip' } as const, ...program.steps.slice(1)] }
            : program,
        )
        return saw({ ...run, programs }, nest, 'stop').made.get('A1')!.steel
      }
      const right = made('quarter+')
      expect(unlike(made('quarter+'), right).share).toBeLessThan(1e-9)
      expect(unlike(made('quarter-'), right)).toMatchObject({ mirror: true })
    })
  })
})
