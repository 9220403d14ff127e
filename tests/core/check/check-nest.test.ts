import { describe, expect, test } from 'vitest'
import { checkNest } from '../../../src/core/check/check-nest.ts'
import type { Nest, NestPiece, NestSection, NestStick, Slope } from '../../../src/core/nest.ts'
import { blankOf, damaged, figures, type Open, problemOf, square, tan30, tube40 } from './documents.ts'
import { hexagonNest, side } from './hexagon.ts'

const faultsOf = (nest: Nest) => checkNest(nest, hexagonNest.sections.map(problemOf)).faults

test('the hexagon nest, written out by hand, is faultless, with and without the demand beside it', () => {
  expect(faultsOf(hexagonNest)).toEqual([])
  expect(checkNest(hexagonNest).faults).toEqual([])
})

/** Moves the pieces from number `first` on along the stick. */
function shift(stick: Open<NestStick>, first: number, by: (place: number) => number) {
  for (const [place, piece] of stick.pieces.entries())
    if (place >= first) for (const end of piece.ends) end.x += by(place)
}

type Damage = (section: Open<NestSection>, stick: Open<NestStick>, nest: Open<Nest>) => void

const damages: readonly (readonly [string, Damage, string])[] = [
  ['a piece left out', (_, stick) => stick.pieces.pop(), '5 pieces in the nest, 6 demanded'],
  [
    'a piece twice',
    (_, stick) =>
      stick.pieces.push({
        ...stick.pieces[5]!,
        ends: [
          { x: 3541.475, p: 0, q: 0 },
          { x: 3135.8875, p: 0, q: 0 },
        ],
      }),
    'piece A6 of job job stands twice',
  ],
  [
    'two pieces of one blank',
    (_, stick) => (stick.pieces[1]!.blank = 'A1.b'),
    'blank A1.b of job job stands twice',
  ],
  [
    'a number past the count',
    (_, stick) => (stick.pieces[5]!.piece = 'A7'),
    'piece A7 of job job is not demanded',
  ],
  [
    'a name that is no number',
    (_, stick) => (stick.pieces[5]!.piece = 'A06'),
    'piece A06 of job job is not demanded',
  ],
  ['another key', (_, stick) => (stick.pieces[0]!.key = 'key B'), 'not with this key'],
  ['another copy', (_, stick) => (stick.pieces[0]!.copy = 2), 'said to be of copy 2; it is of copy 1'],
  [
    'a job that the nest does not name',
    (_s, _, nest) => (nest.jobs = ['other']),
    'which the nest does not name',
  ],
  [
    'a blank 0.1 shorter',
    (_, stick) => (stick.pieces[5]!.ends[1].x += 0.1),
    'piece A6: 405.4875 mm long at the middle, 405.5875 mm demanded',
  ],
  [
    'an end out of square',
    (_, stick) => (stick.pieces[2]!.ends[0].p = 0.001),
    'the leading end slopes 0.001, 0; the part turned none slopes 0, 0',
  ],
  [
    'a turn that the part does not allow',
    (section, stick) => {
      section.demand[0]!.turns = ['none', 'flip']
      stick.pieces[0]!.turn = 'over'
    },
    'turned over, which its part does not allow',
  ],
  [
    'no turning at all',
    (_, stick) => (stick.pieces[0]!.turn = 'mirrored' as 'none'),
    'mirrored is no proper turning',
  ],
  ['pieces out of order', (_, stick) => stick.pieces.reverse(), 'overlap, or stand out of order'],
  [
    'pieces that overlap',
    (_, stick) => shift(stick, 0, (k) => 3 * k),
    'A1 and A2 overlap, or stand out of order, by 0.5 mm',
  ],
  [
    'a kerf too thin',
    (_, stick) => shift(stick, 1, () => 0.1),
    '2.4 mm between A1 and A2; 2.5 mm are needed there',
  ],
  [
    'steel lost from sight',
    (_, stick) => shift(stick, 5, () => -1),
    '1 mm between A5 and A6 are not accounted for',
  ],
  [
    'one step of 1/1600 mm lost from sight',
    (_, stick) => shift(stick, 5, () => -1 / 1600),
    '0.0006 mm between A5 and A6 are not accounted for',
  ],
  [
    'no room for the clean-up',
    (_, stick) => shift(stick, 0, () => 5),
    '5 mm before piece A1; 10 mm are needed there',
  ],
  [
    'a longer drop',
    (_, stick) => (stick.drop += 0.01),
    'a drop of 3541.485 mm is stated; pieces and kerfs leave 3541.475 mm',
  ],
  ['a shorter drop', (_, stick) => (stick.drop -= 1), 'a drop of 3540.475 mm is stated'],
  [
    'a stick that nobody offers',
    (_, stick) => (stick.length = 6001),
    '6001 mm at 6000 is not in the stock offered',
  ],
  [
    'a mill end called cut',
    (_, stick) => (stick.ends[1] = 'cut'),
    'is not in the stock offered, with these ends',
  ],
  ['a lower price', (_, stick) => (stick.price = 5000), '6000 mm at 5000 is not in the stock offered'],
  [
    'a stick bought from the rack',
    (_, stick) => (stick.from = 'rack'),
    'is said to be from rack, but names no rack piece',
  ],
  [
    'more sticks than there are',
    (section) => (section.stock[0]!.count = 0),
    'is used more often than it is there',
  ],
  [
    'a stick with nothing on it',
    (section, stick) => section.sticks.push({ ...stick, id: 'S3', pieces: [] }),
    'stick S3: nothing is cut from it',
  ],
  [
    'two sticks of one name',
    (section, stick) => section.sticks.push({ ...stick, pieces: [] }),
    'stick S2 stands twice',
  ],
  ['a lower cost', (section) => (section.cost = 5999), 'the bound 6000 is above the cost 5999'],
  ['another sum', (section) => (section.cost = 6001), 'a cost of 6001 is stated; the sticks come to 6000'],
  ['proved by too low a bound', (section) => (section.bound = 5999), 'called proved, but the bound 5999'],
  [
    'a clean-up thinner than its kerf',
    (section) => (section.trim = 2),
    'a clean-up cut of 2 mm is less than its own kerf of 2.5 mm',
  ],
  ['NaN for a kerf', (section) => (section.kerf = Number.NaN), 'the kerf is NaN'],
  ['NaN for a place', (_, stick) => (stick.pieces[3]!.ends[0].x = Number.NaN), 'piece A4: NaN mm long'],
  ['NaN for a drop', (_, stick) => (stick.drop = Number.NaN), 'a drop of NaN mm'],
  [
    'a thinner blade than the shop has',
    (section) => (section.kerf = 2.4),
    'a kerf of 2.4 mm, the shop with 2.5 mm',
  ],
  [
    'less to hold than the shop needs',
    (section) => (section.grip = 0),
    'a least to hold of 0 mm, the shop with 60 mm',
  ],
  [
    'another mid-length than the plan wants',
    (section) => (section.demand[0]!.mid = 405),
    'of 405 mm, which the plan does not want',
  ],
  [
    'fewer than the plan wants',
    (section, stick) => {
      section.demand[0]!.count = 5
      stick.pieces.pop()
      stick.drop = 3949.5625
    },
    'the nest gives 1 too few of A, 405.5875 mm',
  ],
  [
    'another section than the plan wants',
    (section) => (section.section.wall = 3),
    'which the plan does not want',
  ],
]

describe('each damage is refused, and named', () => {
  test.each(damages)('%s', (_, damage, words) => {
    const nest = damaged(hexagonNest, (copy) => damage(copy.sections[0]!, copy.sections[0]!.sticks[0]!, copy))
    expect(faultsOf(nest)).toEqual(expect.arrayContaining([expect.stringContaining(words)]))
  })
})

/** One stick from the leading end on, each piece where front, pieces and junctions by hand put it. */
function oneStick(
  stick: Partial<NestStick>,
  pieces: readonly (readonly [lead: number, trail: number, p: Slope, q: Slope])[],
  more: Partial<NestSection> = {},
): Nest {
  const cut = pieces.map(
    ([lead, trail, slope, other], k): NestPiece => ({
      piece: `A${k + 1}`,
      mark: 'A',
      key: 'key A',
      job: 'job',
      copy: 1,
      turn: slope.p < 0 || slope.p === 0 ? 'none' : 'over',
      ends: [
        { x: lead, ...slope },
        { x: trail, ...other },
      ],
    }),
  )
  const [lead, trail, slope, other] = pieces[0]!
  const whole: NestStick = {
    id: 'S1',
    from: 'buy',
    length: 6000,
    price: stick.rack === undefined ? (stick.length ?? 6000) : 0,
    ends: ['mill', 'mill'],
    way: 'square first',
    pieces: cut,
    drop: 0,
    ...stick,
  }
  return {
    ...hexagonNest,
    sections: [
      {
        section: tube40,
        ...figures,
        demand: [
          {
            ...blankOf(side, lead - trail, pieces.length),
            ends:
              slope.p > 0
                ? [
                    { p: -slope.p, q: 0 },
                    { p: -other.p, q: 0 },
                  ]
                : [slope, other],
          },
        ],
        stock: [
          {
            length: whole.length,
            ends: whole.ends,
            ...(whole.rack === undefined ? {} : { rack: whole.rack, count: 1 }),
          },
        ],
        sticks: [whole],
        cost: whole.price,
        bound: 0,
        proved: false,
        ...more,
      },
    ],
  }
}

// design.md 7: a 6000 stick with trim 10 and grip 0 has 5980 for square parts.
test('a mill stick of 6000, trim 10, grip 0 has 5980.0, not 5980.1', () => {
  const of = (mid: number) =>
    checkNest(oneStick({ drop: 5990 - mid - 2.5 }, [[5990, 5990 - mid, square, square]], { grip: 0 })).faults
  expect(of(5980)).toEqual([])
  expect(of(5980.1)).toEqual(['stick S1: 9.9 mm stay behind piece A1; 10 mm are needed there'])
})

// design.md 7: a 1000 drop with cut ends, grip 60, kerf 2.5 has 937.5; used uncut as one part it is 1000.
test('a cut drop of 1000, grip 60, has 937.5, not 937.6; uncut it is a part of 1000, not of 999.9', () => {
  const drop = { from: 'rack', rack: 'r1', length: 1000, ends: ['cut', 'cut'] } as const
  const of = (mid: number, left: number) =>
    checkNest(oneStick({ ...drop, drop: left }, [[1000, 1000 - mid, square, square]])).faults
  expect(of(937.5, 60)).toEqual([])
  expect(of(937.6, 59.9)).toEqual(['stick S1: 62.4 mm stay behind piece A1; 62.5 mm are needed there'])
  expect(of(1000, 0)).toEqual([])
  expect(of(1000, 1)).toEqual(['stick S1: a drop of 1 mm is stated; a piece used uncut leaves none'])
  expect(of(999.9, 0)).toHaveLength(1)
  const bought = checkNest(
    oneStick({ length: 1000, ends: ['cut', 'cut'] }, [[1000, 0, square, square]]),
  ).faults
  expect(bought).toEqual(['stick S1: 0 mm stay behind piece A1; 62.5 mm are needed there'])
  const milled = { ...drop, ends: ['cut', 'mill'] } as const
  expect(checkNest(oneStick(milled, [[1000, 0, square, square]])).faults).toHaveLength(1)
})

test('a rack piece is there once', () => {
  const nest = damaged(
    oneStick({ from: 'rack', rack: 'r1', length: 1000, ends: ['cut', 'cut'] }, [[1000, 0, square, square]]),
    (copy) => {
      const [section] = copy.sections
      section!.demand[0]!.count = 2
      const again = structuredClone(section!.sticks[0]!)
      again.id = 'S2'
      again.pieces[0]!.piece = 'A2'
      section!.sticks.push(again)
    },
  )
  expect(checkNest(nest).faults).toContain(
    'stick S2: 1000 mm (rack r1) at 0 is used more often than it is there',
  )
})

// design.md 6: alternating six-sided parts of 404 in 40 tube, kerf 2.5, take 383.793 each: mid 380.906 and 2.5/cos 30°.
describe('mitered ends from the stick', () => {
  const down: Slope = { p: -tan30, q: 0 }
  const up: Slope = { p: tan30, q: 0 }
  const mid = 404 - 40 * tan30
  const kerf = 2.5 / Math.cos(Math.PI / 6)
  // The wedge of 20 · tan 30° at the mill end, and the clean-up of 10.
  const lead = 6000 - 20 * tan30 - 10
  const next = lead - mid - kerf
  const wedge = 20 * tan30
  const left = next - mid - kerf - wedge

  test('turned over between cuts they share the cut, 383.793 apart', () => {
    expect(lead - next).toBeCloseTo(383.793, 3)
    const nest = oneStick({ drop: left }, [
      [lead, lead - mid, down, up],
      [next, next - mid, up, down],
    ])
    expect(checkNest(nest).faults).toEqual([])
    const tight = damaged(nest, (copy) => {
      copy.sections[0]!.sticks[0]!.pieces[1]!.ends.forEach((end) => {
        end.x += 0.01
      })
      copy.sections[0]!.sticks[0]!.drop += 0.01
    })
    expect(checkNest(tight).faults).toEqual([
      'stick S1: 2.8768 mm between A1 and A2; 2.8868 mm are needed there',
    ])
  })
  test('not turned they need both kerfs and the wedge of 40 · tan 30° between', () => {
    const far = lead - mid - 2 * kerf - 40 * tan30
    const nest = oneStick({ drop: far - mid - kerf - wedge }, [
      [lead, lead - mid, down, up],
      [far, far - mid, down, up],
    ])
    expect(checkNest(nest).faults).toEqual([])
    const shared = oneStick({ drop: left }, [
      [lead, lead - mid, down, up],
      [next, next - mid, down, up],
    ])
    expect(checkNest(shared).faults).toEqual([
      'stick S1: 2.8868 mm between A1 and A2; 28.8675 mm are needed there',
    ])
  })
  test('the drop is measured on its short side', () => {
    const nest = oneStick({ drop: left + wedge }, [
      [lead, lead - mid, down, up],
      [next, next - mid, up, down],
    ])
    expect(checkNest(nest).faults).toEqual([expect.stringContaining('pieces and kerfs leave')])
  })
  test('the wedge at a square end is not forgotten', () => {
    const nest = oneStick({ drop: 5990 - mid - kerf - wedge }, [[5990, 5990 - mid, down, up]])
    expect(checkNest(nest).faults).toEqual(['stick S1: 10 mm before piece A1; 21.547 mm are needed there'])
  })
  test('an angled drop of the same slope gives the piece its end for nothing', () => {
    const nest = oneStick(
      { from: 'rack', rack: 'r1', length: 1000, ends: [down, 'cut'], drop: 1000 - mid - kerf - wedge },
      [[1000, 1000 - mid, down, up]],
    )
    expect(checkNest(nest).faults).toEqual([])
  })
  test('turned end for end a parallelogram would change its slopes, and a mirror image is refused', () => {
    const flat = oneStick({ drop: 5990 - wedge - 400 - kerf - wedge }, [
      [5990 - wedge, 5590 - wedge, down, down],
    ])
    expect(checkNest(flat).faults).toEqual([])
    const as = (turn: NestPiece['turn']) =>
      checkNest(
        damaged(flat, (copy) => {
          copy.sections[0]!.sticks[0]!.pieces[0]!.turn = turn
        }),
      ).faults
    // Half a turn about z brings a parallelogram onto itself; over and flip give the other slopes.
    expect(as('end')).toEqual([])
    expect(as('over')).toHaveLength(2)
    expect(as('flip')).toHaveLength(2)
    const mirrored = damaged(flat, (copy) => {
      for (const end of copy.sections[0]!.sticks[0]!.pieces[0]!.ends) end.p = tan30
    })
    expect(checkNest(mirrored).faults).toHaveLength(2)
  })
})

test('piece 4 of a part with three per copy is of copy 2, and a nest of what is left goes on counting', () => {
  const rest = damaged(hexagonNest, (copy) => {
    const [section] = copy.sections
    section!.demand[0]!.perCopy = 3
    section!.demand[0]!.first = 4
    section!.sticks[0]!.pieces.forEach((piece, k) => {
      piece.piece = `A${k + 4}`
      piece.blank = `A${k + 4}.b`
      piece.copy = k < 3 ? 2 : 3
    })
  })
  expect(checkNest(rest).faults).toEqual([])
})

test('priced stock counts in cents, and a price on some of the bought stock only is refused', () => {
  const priced = damaged(hexagonNest, (copy) => {
    const [section] = copy.sections
    section!.stock[0]!.price = 2450
    section!.sticks[0]!.price = 2450
    section!.cost = 2450
    section!.bound = 2450
  })
  expect(checkNest(priced).faults).toEqual([])
  const mixed = damaged(priced, (copy) =>
    copy.sections[0]!.stock.push({ length: 7000, ends: ['mill', 'mill'] }),
  )
  expect(checkNest(mixed).faults).toEqual([expect.stringContaining('has a price and some has none')])
})
