// Random good nests, packed here by the rules of the documents and not by the solver, are faultless; each of many
// damages to one of them is refused. The failing seed is in the name of the test.
import { describe, expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type {
  Nest,
  NestPart,
  NestPiece,
  NestSection,
  NestStick,
  Slope,
  StickEnd,
  StockLength,
  Turning,
} from '../../src/core/nest.ts'
import type { Section } from '../../src/core/section/section.ts'
import { damaged, type Open } from '../core/check/documents.ts'
import { type Dice, dice, seed } from './seed.ts'

const rounds = 600
/** Up to a whole step, or the one within 1e-6 mm. */
const steps = (mm: number) => Math.ceil(mm * 1600 - 1.6e-3) / 1600
const turnings: readonly Turning[] = ['none', 'over', 'end', 'flip']

/** The half turns as the documents give them for one swing plane, (s, u) leading and trailing. */
function turned([s, u]: readonly [number, number], turn: Turning): readonly [number, number] {
  return turn === 'over' ? [-s, -u] : turn === 'end' ? [u, s] : turn === 'flip' ? [-u, -s] : [s, u]
}

const slope = (p: number): Slope => ({ p, q: 0 })
const slopeOf = (end: StickEnd) => (typeof end === 'string' ? 0 : end.p)

interface Kind {
  readonly part: NestPart
  readonly s: readonly [number, number]
}

function randomKind(roll: Dice, mark: string, width: number): Kind {
  const angles = [0, 0, 15, 22.5, 30, 45]
  const tan = () => Math.tan((roll.pick(angles) * Math.PI) / 180) * roll.pick([1, -1])
  const s = [tan() || 0, tan() || 0] as const
  const mid = roll.whole(Math.ceil(2 * width) * 4, 3000) / 4
  const turns = roll.pick([turnings, turnings, ['none', 'end'], ['none', 'flip'], ['none']] as const)
  return {
    s,
    part: {
      job: 'job',
      mark,
      key: `key ${mark}`,
      mid,
      ends: [slope(s[0]), slope(s[1])],
      turns,
      count: 0,
      perCopy: roll.whole(1, 4),
    },
  }
}

function randomNest(roll: Dice): Nest {
  const width = roll.whole(20, 80)
  const section: Section = { kind: 'square-tube', width, height: width, wall: 2, cornerRadius: 4 }
  const kerf = roll.pick([0, 1.5, 2.5, 3.175])
  const trim = roll.pick([0, kerf, 10])
  const grip = roll.pick([0, 60, 100])
  const kinds = Array.from({ length: roll.whole(1, 4) }, (_, k) => randomKind(roll, 'ABCD'[k]!, width))
  const counts = new Map(kinds.map(({ part }) => [part.mark, 0]))
  const stock: StockLength[] = []
  const sticks: NestStick[] = []
  const along = (p: number) => kerf * Math.hypot(1, p)
  for (let number = 1; number <= roll.whole(1, 5); number += 1) {
    const rack = roll() < 0.3
    const end = (): StickEnd =>
      rack ? roll.pick(['cut', 'cut', slope(Math.tan(Math.PI / 6))] as const) : 'mill'
    const length = rack ? roll.whole(900, 3000) : 6000
    const offered = stock.find((each) => each.rack === undefined)
    const kind: StockLength =
      !rack && offered
        ? offered
        : { length, ends: [end(), end()], ...(rack ? { rack: `r${number}`, count: 1 } : {}) }
    if (kind !== offered) stock.push(kind)
    const clean = (each: StickEnd, p: number) => (each === 'mill' && trim > 0 ? Math.max(trim, along(p)) : 0)
    const room = (a: number, b: number) => (Math.abs(a - b) * width) / 2
    const tail = (p: number) =>
      room(p, slopeOf(kind.ends[1])) + Math.max(clean(kind.ends[1], p), grip > 0 ? grip + along(p) : 0)
    const pieces: NestPiece[] = []
    let at = length
    let before: number | undefined
    for (let tries = 0; tries < 40; tries += 1) {
      const { part, s } = roll.pick(kinds)
      const turn = roll.pick(part.turns)
      const [lead, trail] = turned(s, turn)
      const gap =
        before === undefined
          ? room(lead, slopeOf(kind.ends[0])) + clean(kind.ends[0], lead)
          : Math.abs(before - lead) < 1e-12
            ? along(lead)
            : room(before, lead) + along(before) + along(lead)
      // In whole steps, or unrounded: both are how a solver may count.
      const start = at - (number % 2 ? steps(gap) : gap)
      if (start - part.mid < tail(trail)) continue
      const k = counts.get(part.mark)! + 1
      counts.set(part.mark, k)
      pieces.push({
        piece: `${part.mark}${k}`,
        mark: part.mark,
        key: part.key,
        job: 'job',
        copy: 1 + Math.floor((k - 1) / part.perCopy),
        turn,
        ends: [
          { x: start, p: lead, q: 0 },
          { x: start - part.mid, p: trail, q: 0 },
        ],
      })
      at = start - part.mid
      before = trail
    }
    if (before === undefined) {
      if (kind !== offered) stock.pop()
      continue
    }
    const left = at - along(before) - room(before, slopeOf(kind.ends[1]))
    sticks.push({
      id: `S${number}`,
      from: rack ? 'rack' : 'buy',
      ...(rack ? { rack: `r${number}` } : {}),
      length,
      price: rack ? 0 : length,
      ends: kind.ends,
      way: 'from the stick',
      pieces,
      drop: Math.max(0, Math.floor(left * 1600 + 1.6e-3) / 1600),
    })
  }
  const cost = sticks.reduce((sum, { price }) => sum + price, 0)
  const demand = kinds.map(({ part }) => ({ ...part, count: counts.get(part.mark)! }))
  return {
    version: 1,
    id: 'nest',
    solver: 'packed by dice',
    jobs: ['job'],
    sections: [
      {
        section,
        kerf,
        trim,
        grip,
        way: 'from the stick',
        demand: demand.filter(({ count }) => count > 0),
        stock,
        sticks,
        cost,
        bound: 0,
        proved: false,
      },
    ],
  }
}

type Damage = (
  section: Open<NestSection>,
  stick: Open<NestStick>,
  piece: Open<NestPiece>,
  roll: Dice,
) => unknown

/** Each says false where the nest at hand cannot be damaged this way. */
const damages: Readonly<Record<string, Damage>> = {
  'a piece left out': (_s, stick) => {
    stick.pieces.pop()
  },
  'a piece twice': (_s, stick, piece) => {
    stick.pieces.push(piece)
  },
  'a piece moved': (_s, _stick, piece, roll) => {
    const by = roll.between(0.01, 5) * roll.pick([1, -1])
    for (const end of piece.ends) end.x += by
  },
  'a piece longer': (_s, _stick, piece, roll) => {
    piece.ends[0].x += roll.between(0.01, 5)
  },
  'a piece shorter': (_s, _stick, piece, roll) => {
    piece.ends[1].x += roll.between(0.01, 5)
  },
  'an end steeper': (_s, _stick, piece, roll) => {
    piece.ends[roll.whole(0, 1)]!.p += roll.between(0.001, 0.5)
  },
  'an end out of its plane': (_s, _stick, piece, roll) => {
    piece.ends[roll.whole(0, 1)]!.q = 0.01
  },
  'two pieces changed over': (_s, stick) => {
    if (stick.pieces.length < 2) return false
    const [a, b] = stick.pieces
    stick.pieces.splice(0, 2, b!, a!)
    return true
  },
  'another key': (_s, _stick, piece) => {
    piece.key = 'key Z'
  },
  'another mark': (_s, _stick, piece) => {
    piece.mark = 'Z'
  },
  'another number': (_s, _stick, piece) => {
    piece.piece = `${piece.mark}9999`
  },
  'another copy': (_s, _stick, piece) => {
    piece.copy += 1
  },
  'another job': (_s, _stick, piece) => {
    piece.job = 'other'
  },
  'a longer drop': (_s, stick, _p, roll) => {
    stick.drop += roll.between(0.002, 100)
  },
  'a much shorter drop': (_s, stick, _p, roll) => {
    if (stick.drop < 1) return false
    stick.drop -= roll.between(0.1, 1)
    return true
  },
  'a longer stick': (_s, stick, _p, roll) => {
    stick.length += roll.between(0.01, 500)
  },
  'a cheaper stick': (section, stick) => {
    if (stick.price === 0) return false
    stick.price -= 1
    section.cost -= 1
    return true
  },
  'another cost': (section) => {
    section.cost += 1
  },
  'a bound above the cost': (section) => {
    section.bound = section.cost + 1
  },
  'proved without a bound': (section) => {
    if (section.cost === 0) return false
    section.proved = true
    return true
  },
  'a wider kerf': (section, stick, _p, roll) => {
    if (stick.pieces.length < 2) return false
    section.kerf += roll.between(0.01, 1)
    section.trim = section.trim > 0 ? Math.max(section.trim, section.kerf) : 0
    return true
  },
  'one more demanded': (section) => {
    section.demand[0]!.count += 1
  },
  'a rack piece twice': (section, stick) => {
    if (stick.from !== 'rack') return false
    section.sticks.push({ ...stick, id: 'S99', pieces: [] })
    return true
  },
  'a stick twice': (section, stick) => {
    section.sticks.push(structuredClone(stick))
  },
  'NaN for a place': (_s, _stick, piece, roll) => {
    piece.ends[roll.whole(0, 1)]!.x = Number.NaN
  },
  'NaN for a slope': (_s, _stick, piece, roll) => {
    piece.ends[roll.whole(0, 1)]!.p = Number.NaN
  },
}

describe(`nests packed by dice, seed ${seed}`, () => {
  const roll = dice('check-nests')
  const nests = Array.from({ length: rounds }, () => randomNest(roll)).filter(
    ({ sections }) => sections[0]!.sticks.length > 0,
  )

  test(`${rounds} of them are faultless`, () => {
    expect(nests.length).toBeGreaterThan(rounds * 0.8)
    const refused = nests.find((nest) => checkNest(nest).faults.length > 0)
    expect(refused && { faults: checkNest(refused).faults, refused }).toBeUndefined()
  })

  test.each(Object.entries(damages))('%s is refused every time', (name, damage) => {
    const roll = dice(`check-nests ${name}`)
    let done = 0
    for (const nest of nests) {
      let real = true
      const bad = damaged(nest, (copy) => {
        const section = copy.sections[0]!
        const stick = roll.pick(section.sticks)
        real = damage(section, stick, roll.pick(stick.pieces), roll) !== false
      })
      if (!real) continue
      done += 1
      if (checkNest(bad).faults.length === 0) expect.fail(JSON.stringify(bad))
    }
    expect(done).toBeGreaterThan(rounds / 20)
  })
})
